import type { Advice } from "../src/advice/advice.ts";
import { decidingInk } from "../src/advice/decidingInk.ts";
import { isFinished } from "../src/advice/isFinished.ts";
import { riskLine } from "../src/advice/riskLine.ts";
import { plainLine } from "./plainText.ts";

/** Lines that a person with wet gloves reads; everything else is for `--full` and the report. */
export const MOST_LINES = 12;

/** No figure decides here. */
const LEAVES_WATER: ReadonlySet<Advice["verdict"]> = new Set(["lift", "do-not-immerse"]);

/** The ink that decides, its upper bound first: "red: up to 3.9 dE00 ..."; nothing where no bath is weighed any more. */
function decidesLines(advice: Advice): string[] {
  if (isFinished(advice) || LEAVES_WATER.has(advice.verdict)) return [];
  const ink = decidingInk(advice);
  if (ink === null && advice.verdict === "not-decidable") return [];
  return [
    ink === null
      ? "Decides: no ink has a fade that could be predicted; see why"
      : `Decides: ${riskLine(advice, ink)}`,
  ];
}

/** Why, in as few lines as there is room for: the first reasons, but none that the line of the deciding ink says already. */
function whyLines({ reasons }: Advice, room: number): string[] {
  const told = new Set(["risk-above-limit", "risk-within-limit", "loss-not-shown"]);
  const first = reasons.filter(({ code }) => !told.has(code));
  return first.slice(0, room).map(({ text }) => `Why: ${text}`);
}

/**
 * An advice at the tray, at most twelve lines: where the sheet belongs, the order, the ink that decides with its upper bound, what to do
 * next, and where the rest is.
 * @param before Lines that have to come first.
 * @param notes Number of notes that are left out.
 * @param more Where the rest is: a command.
 */
export function trayText(
  advice: Advice,
  {
    before = [],
    notes = 0,
    more,
  }: { readonly before?: readonly string[]; readonly notes?: number; readonly more: string },
): string {
  const head = [
    ...before,
    `The sheet now: ${advice.sheetText}`,
    `Advice: ${advice.headline}`,
    ...decidesLines(advice),
  ];
  const settles =
    advice.verdict === "not-decidable"
      ? advice.wouldChangeIt.slice(0, 1).map((line) => `Settles it: ${line}`)
      : [];
  const hidden =
    advice.notShown.length === 0
      ? []
      : [`Not measurable from the bath: ${advice.notShown.join(", ")} may change colour in place`];
  const tail = [
    `All of it${notes === 0 ? "" : `, ${String(notes)} ${notes === 1 ? "note" : "notes"} too`}: ${more}. The tool advises, it never certifies.`,
  ];
  const fixed = head.length + settles.length + hidden.length + tail.length;
  // What to do goes before why; a line of each is always there.
  const orders = advice.mustDo.slice(0, Math.max(1, MOST_LINES - fixed - 1));
  const why = whyLines(advice, Math.max(0, MOST_LINES - fixed - orders.length));
  return [...head, ...why, ...orders.map((line) => `Do: ${line}`), ...settles, ...hidden, ...tail]
    .map(plainLine)
    .join("\n");
}
