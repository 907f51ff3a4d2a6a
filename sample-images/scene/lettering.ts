import type { Shape, Vertex } from "./shapes.ts";
import { stroke } from "./shapes.ts";

/**
 * Our own letters as pen strokes on a box 4 wide and 6 high, y down. Each string is one stroke, "xy" pairs of digits.
 * No font was looked at: straight strokes with cut corners, as a sign painter's lettering made quickly.
 */
const STROKES: Readonly<Record<string, readonly string[]>> = {
  A: ["06 01 10 30 41 46", "04 44"],
  B: ["06 00 30 41 42 33 03", "33 44 45 36 06"],
  C: ["41 30 10 01 05 16 36 45"],
  D: ["00 06 26 45 41 20 00"],
  E: ["40 00 06 46", "03 33"],
  F: ["40 00 06", "03 33"],
  G: ["41 30 10 01 05 16 36 45 43 23"],
  H: ["00 06", "40 46", "03 43"],
  I: ["20 26"],
  J: ["40 45 36 16 05"],
  K: ["00 06", "40 03 46"],
  L: ["00 06 46"],
  M: ["06 00 23 40 46"],
  N: ["06 00 46 40"],
  O: ["10 30 41 45 36 16 05 01 10"],
  P: ["06 00 30 41 43 34 04"],
  Q: ["10 30 41 45 36 16 05 01 10", "24 46"],
  R: ["06 00 30 41 42 33 03", "23 46"],
  S: ["41 30 10 01 02 13 33 44 45 36 16 05"],
  T: ["00 40", "20 26"],
  U: ["00 05 16 36 45 40"],
  V: ["00 26 40"],
  W: ["00 16 23 36 40"],
  X: ["00 46", "40 06"],
  Y: ["00 23 40", "23 26"],
  Z: ["00 40 06 46"],
  "0": ["10 30 41 45 36 16 05 01 10"],
  "1": ["11 20 26"],
  "2": ["01 10 30 41 42 06 46"],
  "3": ["01 10 30 41 42 33 44 45 36 16 05"],
  "4": ["30 04 44", "30 36"],
  "5": ["40 00 03 33 44 45 36 06"],
  "6": ["40 10 01 05 16 36 45 44 33 03"],
  "7": ["00 40 16"],
  "8": ["13 02 01 10 30 41 42 33 13 04 05 16 36 45 44 33"],
  "9": ["43 13 02 01 10 30 41 45 36 06"],
  "!": ["20 24", "26 26"],
  "-": ["13 33"],
  ",": ["26 17"],
  ".": ["26 26"],
};

const NARROW = new Set(["I", "1", "!", ",", "."]);
/** Steps of the letter box from one letter to the next. */
const ADVANCE = 5.6;
const ADVANCE_NARROW = 3.4;
const ADVANCE_SPACE = 3.2;

function advance(letter: string): number {
  if (letter === " ") return ADVANCE_SPACE;
  return NARROW.has(letter) ? ADVANCE_NARROW : ADVANCE;
}

/** Width in mm of a line of text of the given letter height. */
export function textWidth(text: string, heightMm: number): number {
  const steps = [...text].reduce((sum, letter) => sum + advance(letter), 0);
  return ((steps - (ADVANCE - 4)) * heightMm) / 6;
}

/**
 * The strokes of a line of text.
 * @param left, top Corner of the first letter's box in mm.
 * @param heightMm Height of a letter from stroke centre to stroke centre.
 * @param weightMm Width of the pen.
 */
export function lettering(
  text: string,
  left: number,
  top: number,
  heightMm: number,
  weightMm: number,
): Shape[] {
  const unit = heightMm / 6;
  const shapes: Shape[] = [];
  let pen = left;
  for (const letter of text) {
    const shift = NARROW.has(letter) ? -1.1 : 0;
    for (const path of STROKES[letter] ?? []) {
      const points = path
        .split(" ")
        .map((pair): Vertex => [
          pen + (Number(pair[0]) + shift) * unit,
          top + Number(pair[1]) * unit,
        ]);
      shapes.push(stroke(points, weightMm / 2));
    }
    pen += advance(letter) * unit;
  }
  return shapes;
}
