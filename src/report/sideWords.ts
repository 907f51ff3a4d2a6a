import type { Side } from "../record/treatment.ts";

/** Sides of a cover in words. */
export const SIDE_WORDS: Readonly<Record<Side, string>> = {
  front: "front",
  back: "back",
  "inside-front": "inside of the front",
  "inside-back": "inside of the back",
};
