import type { Assessment } from "../src/advice/assessBaths.ts";
import type { Advice } from "../src/advice/advice.ts";
import { SHEET_WORDS, VERDICT_WORDS } from "../src/results/adviceWords.ts";
import { plainLine } from "./plainText.ts";

function list(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines.map((line) => `  - ${line}`)];
}

function adviceLines(advice: Advice): string[] {
  const risks = Object.entries(advice.riskOfExceeding).flatMap(([ink, risk]) =>
    risk === null
      ? []
      : [
          `${ink}: ${(100 * risk).toFixed(0)} % that one more bath takes it past ${String(advice.limits.maxDeltaE00)} dE00 (accepted: ${(100 * advice.limits.risk).toFixed(0)} %)`,
        ],
  );
  return [
    `The sheet now: ${SHEET_WORDS[advice.sheetNow]}`,
    `Advice: ${VERDICT_WORDS[advice.verdict]}`,
    ...list(
      "Why",
      advice.reasons.map(({ text }) => text),
    ),
    ...list("Risk", risks),
    ...list("Must do", advice.mustDo),
    ...list("Would change it", advice.wouldChangeIt),
  ];
}

function range(low: number, mid: number, high: number, digits: number): string {
  return `${mid.toFixed(digits)} (90 %: ${low.toFixed(digits)} to ${high.toFixed(digits)})`;
}

/** Advice, predicted fade and next bath for people. */
export function adviceText({ advice, fade, nextBath }: Assessment): string {
  const fades = Object.entries(fade).flatMap(([ink, one]) =>
    one === null
      ? []
      : [
          `${ink}: ${range(one.low, one.mid, one.high, 2)} dE00, spread evenly${one.stainedOnly === null ? "" : `; only where the blotter stained: ${range(one.stainedOnly.low, one.stainedOnly.mid, one.stainedOnly.high, 2)}`}`,
        ],
  );
  const next =
    nextBath === null
      ? []
      : Object.entries(nextBath).map(
          ([what, [low, mid, high]]) => `${what}: ${range(low, mid, high, 4)} per cm`,
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
