/** Cells along the long side of the picture. */
const CELLS = 24;

/** About as many key points are kept in all; matching time grows with the square. */
const KEPT = 2500;

/**
 * Picks the strongest key points of each square cell, so that lettering doesn't take every place.
 * The limit of a cell starts at an even share and is raised while places are left over, so a sheet that covers a part of the
 * frame gets as many key points as one that fills it.
 * @param xy x, y interleaved, in pixels of a picture of `width` x `height`.
 * @param response Strength of each.
 * @returns Indices of the key points kept, ascending.
 */
export function spreadKeyPoints(
  xy: Float64Array,
  response: Float64Array,
  width: number,
  height: number,
  kept = KEPT,
): number[] {
  const cell = Math.max(width, height) / CELLS;
  const columns = Math.ceil(width / cell);
  const cells = new Map<number, number[]>();
  const strongestFirst = Array.from(response.keys()).sort(
    (i, j) => response[j] - response[i] || i - j,
  );
  for (const i of strongestFirst) {
    const key = Math.floor(xy[2 * i + 1] / cell) * columns + Math.floor(xy[2 * i] / cell);
    const members = cells.get(key);
    if (members === undefined) cells.set(key, [i]);
    else members.push(i);
  }
  const evenShare = Math.ceil(
    (kept * Math.max(width, height)) / (CELLS * CELLS * Math.min(width, height)),
  );
  const total = (limit: number): number => {
    let sum = 0;
    for (const members of cells.values()) sum += Math.min(limit, members.length);
    return sum;
  };
  let limit = evenShare;
  while (total(limit) < Math.min(kept, response.length)) limit++;
  return [...cells.values()].flatMap((members) => members.slice(0, limit)).sort((i, j) => i - j);
}
