import type { Point } from "../numeric/point.ts";
import { LastrinseError } from "../errors.ts";

export type Corners = readonly [Point, Point, Point, Point];

const NUMBER = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`;
const PAIR = new RegExp(`^(${NUMBER}),(${NUMBER})$`);

/**
 * Centres of the four corner patches from the text of an option, `"x,y x,y x,y x,y"`.
 * @param text Pairs apart by white space; no space inside a pair; point as the decimal sign.
 * @param option Its name, for the message.
 * @throws {LastrinseError} `wrong-use`.
 */
export function parseCorners(text: string, option: string): Corners {
  const pairs = text.trim() === "" ? [] : text.trim().split(/\s+/);
  const points = pairs.map((pair): Point | null => {
    const match = PAIR.exec(pair);
    return match === null ? null : [Number(match[1]), Number(match[2])];
  });
  if (!areCorners(points)) {
    const bad = points.indexOf(null);
    throw new LastrinseError(
      "wrong-use",
      `Expected four pairs of pixel coordinates for ${option}, received ${
        bad >= 0 ? `"${pairs[bad]}" where a pair x,y belongs` : `${points.length} in "${text}"`
      }.`,
      {
        remedy: `Give the centres of the four corner patches as "x,y x,y x,y x,y": first of row 1, last of row 1, last of the last row, first of the last row.`,
        input: option,
      },
    );
  }
  return points;
}

function areCorners(points: readonly (Point | null)[]): points is Corners {
  return points.length === 4 && !points.includes(null);
}
