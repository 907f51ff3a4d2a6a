/** The box round all pixels of a picture that are not the sheet: first and last column, first and last row. */
export interface Hole {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** @param excluded 1 for pixels that are not the sheet. @returns null where there are none. */
export function holeOf(excluded: Uint8Array, width: number): Hole | null {
  const first = excluded.indexOf(1);
  if (first < 0) return null;
  const top = Math.floor(first / width);
  const bottom = Math.floor(excluded.lastIndexOf(1) / width);
  let left = width;
  let right = -1;
  for (let row = top; row <= bottom; row++) {
    const pixels = excluded.subarray(row * width, (row + 1) * width);
    const from = pixels.indexOf(1);
    if (from < 0) continue;
    left = Math.min(left, from);
    right = Math.max(right, pixels.lastIndexOf(1));
  }
  return { left, right, top, bottom };
}

/** Whether a box keeps clear of the hole; its bounds need not be whole. */
export function clearOf(
  hole: Hole | null,
  left: number,
  right: number,
  top: number,
  bottom: number,
): boolean {
  return (
    hole === null ||
    right < hole.left ||
    left > hole.right ||
    bottom < hole.top ||
    top > hole.bottom
  );
}
