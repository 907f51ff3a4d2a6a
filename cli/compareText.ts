import Table from "cli-table3";
import type { AreaReport, CompareResult } from "../src/results/compareResult.ts";
import { inkWords, PAPER_WORDS } from "../src/results/compareWords.ts";
import { plateSentences } from "../src/results/plateWords.ts";
import type { Triple } from "../src/numeric/triple.ts";
import { noteLines } from "./noteLines.ts";
import { plainLine } from "./plainText.ts";

/** A Lab figure is good to a few tenths at best. */
const LAB_DIGITS = 1;
const DELTA_DIGITS = 2;

function figure(value: number | null, digits = DELTA_DIGITS): string {
  return value === null ? "-" : value.toFixed(digits);
}

function lab(value: Triple | null): string {
  return value === null ? "-" : value.map((part) => part.toFixed(LAB_DIGITS)).join(" ");
}

function interval(low: number | null, high: number | null): string {
  return low === null || high === null ? "" : ` (${figure(low)}-${figure(high)})`;
}

function areaCells(area: AreaReport): string[] {
  return [
    figure(area.areaCm2, 1),
    lab(area.labBefore),
    lab(area.labAfter),
    `${figure(area.deltaE00)}${interval(area.deltaE00Low, area.deltaE00High)}`,
    figure(area.floorDeltaE00),
  ];
}

function measuredWords({ measuredShare, maskedShare }: CompareResult["registration"]): string {
  return measuredShare === undefined
    ? `${figure(100 * maskedShare, 0)} % of the sheet left out as not trusted.`
    : `${figure(100 * measuredShare, 0)} % of the sheet measured.`;
}

/** The result of `compare` as a table for people. */
export function compareText(result: CompareResult): string {
  const table = new Table({
    head: [
      "area",
      "cm2",
      "Lab before",
      "Lab after",
      "dE00 (95 %)",
      "floor",
      "from paper",
      "ink part (95 %)",
      "in words",
    ],
    style: { head: [], border: [] },
  });
  const { paper, inks, registration, before, after, warnings } = result;
  if (paper !== null)
    table.push(["paper", ...areaCells(paper), "", "", PAPER_WORDS[paper.verdict]]);
  for (const ink of inks)
    table.push([
      plainLine(ink.id),
      ...areaCells(ink),
      figure(ink.paperPartDeltaE00),
      `${figure(ink.inkPartDeltaE00)}${interval(ink.inkPartLow, ink.inkPartHigh)}`,
      inkWords(ink),
    ]);
  const cardLine = (side: string, scan: CompareResult["before"]): string =>
    `Card ${side}: ${scan.card.model === "gam+3x3" ? "tone curve and matrix" : scan.card.model}, leave-one-out ${
      scan.card.leaveOneOut === null
        ? "not known (unmeasured card)"
        : `mean ${figure(scan.card.leaveOneOut.mean, 1)}, p95 ${figure(scan.card.leaveOneOut.p95, 1)} dE00`
    }`;
  const printed = plateSentences(result);
  const lines = [
    ...printed.plates.map(plainLine),
    ...(printed.note === null ? [] : [printed.note]),
    "Change per ink: CIEDE2000 on CIELAB D50, 2 degree. Below its floor nothing is claimed.",
    table.toString(),
    `Sheet: ${figure(100 * (registration.scaleX - 1))} % wider, ${figure(100 * (registration.scaleY - 1))} % higher, turned by ${figure(registration.rotationDegrees)} degrees; placed to ${figure(registration.residualP95Pixels)} px (p95); ${measuredWords(registration)}`,
    cardLine("before", before),
    cardLine("after", after),
    ...noteLines(warnings),
  ];
  return lines.join("\n");
}
