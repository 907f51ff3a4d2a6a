import type { Rgb } from "./rgb.ts";

/** Two tones in slanting lines: it stays apart from any flat tone in grey print and for every reader of colour. */
export interface Hatching {
  readonly ground: Rgb;
  readonly line: Rgb;
  /** Rising to the right, or falling. */
  readonly slant: "rising" | "falling";
}

/** Lines over the width of a picture, whatever its size: they survive being shown small. */
const LINES_ACROSS = 70;
/** Share of the distance between two lines that the line takes. */
const LINE_SHARE = 0.34;
const LEAST_PERIOD = 4;

/** Tone of a hatched place. @param width Of the whole picture, pixels. */
export function hatched(
  { ground, line, slant }: Hatching,
  width: number,
): (x: number, y: number) => Rgb {
  const period = Math.max(LEAST_PERIOD, Math.round(width / LINES_ACROSS));
  const thick = Math.max(1, Math.round(LINE_SHARE * period));
  return (x, y) => {
    const along = (slant === "rising" ? x + y : x - y) % period;
    return (along < 0 ? along + period : along) < thick ? line : ground;
  };
}
