import type { Assessment } from "../src/advice/assessBaths.ts";
import type { Advice } from "../src/advice/advice.ts";
import { isFinished } from "../src/advice/isFinished.ts";
import { riskLine } from "../src/advice/riskLine.ts";
import { plainLine } from "./plainText.ts";

function list(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines.map((line) => `  - ${line}`)];
}

function riskLines(advice: Advice): string[] {
  return isFinished(advice)
    ? []
    : Object.keys(advice.upperDeltaE00).map((ink) => riskLine(advice, ink));
}

function adviceLines(advice: Advice): string[] {
  return [
    `The sheet now: ${advice.sheetText}`,
    `Advice: ${advice.headline}`,
    ...list(
      "Why",
      advice.reasons.map(({ text }) => text),
    ),
    ...list("Risk", riskLines(advice)),
    ...list("Must do", advice.mustDo),
    ...list("Would change it", advice.wouldChangeIt),
  ];
}

/** Upper bound first: a middle near 0 says nothing where the range reaches far. */
function upTo(low: number, high: number): string {
  return `up to ${high.toFixed(2)} (90 %: ${low.toFixed(2)} to ${high.toFixed(2)})`;
}

/** Advice, predicted fade and next bath for people, all of it. */
export function adviceText({ advice, fade, nextBath }: Assessment): string {
  const fades = Object.entries(fade).flatMap(([ink, one]) =>
    one === null
      ? []
      : [
          `${ink}: ${upTo(one.low, one.high)} dE00, spread evenly${one.stainedOnly === null ? "" : `; only where the blotter stained: ${upTo(one.stainedOnly.low, one.stainedOnly.high)}`}${advice.notShown.includes(ink) ? "; only what dissolves, the rest is not measurable from the bath" : ""}`,
        ],
  );
  const next =
    nextBath === null || isFinished(advice)
      ? []
      : Object.entries(nextBath).map(
          ([what, [low, mid, high]]) =>
            `${what}: ${low.toFixed(4)} to ${high.toFixed(4)} per cm (90 %; middle ${mid.toFixed(4)})`,
        );
  return [
    ...adviceLines(advice),
    ...list("Fade so far, predicted from the baths", fades),
    ...list("A next bath like the last would bring", next),
    "The tool advises, it never certifies.",
  ]
    .map(plainLine)
    .join("\n");
}
