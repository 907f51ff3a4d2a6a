import type { Warning } from "../errors.ts";
import { quantile } from "../numeric/statistics.ts";
import { MM_PER_INCH } from "./sheetFrame.ts";
import {
  DOUBTFUL_LAST_STEP_PIXELS,
  DOUBTFUL_MEDIAN_NCC,
  LAST_STEP_DPI,
  LEAST_MATCHED_SHARE,
  LEAST_MEDIAN_NCC,
  LEAST_TRUSTED_NODES,
  TRUSTED,
} from "./gates.ts";
import type { TileMeasurements } from "./measureTiles.ts";
import { percent, registrationFailed } from "./registrationFailed.ts";
import { weightedMedian } from "./weightedMedian.ts";

/** How well the last pass found the sheet again. */
export interface Agreement {
  /** Of the structure in both frames, the share that was found again, 0..1; NaN where there is none. */
  readonly matchedShare: number;
  readonly medianNcc: number;
  /** 95th percentile of the last corrections at trusted nodes, mm. */
  readonly lastStepMm: number;
  readonly trusted: readonly number[];
}

/**
 * Each place counts by the variance of its structure: the grain of blank paper is there to be seen, but a wash may change it,
 * and it must not outvote the print.
 */
export function agreementOf(
  measured: TileMeasurements,
  trust: Float64Array,
  leastNcc: number,
): Agreement {
  const { possible, ncc, structure, step } = measured;
  const nodes = Array.from(possible.keys()).filter((node) => possible[node] !== 0);
  const trusted = nodes.filter((node) => trust[node] > TRUSTED);
  const sum = (some: readonly number[]): number =>
    some.reduce((total, node) => total + structure[node], 0);
  return {
    matchedShare: sum(nodes.filter((node) => ncc[node] >= leastNcc)) / sum(nodes),
    medianNcc: weightedMedian(
      nodes.map((node) => ncc[node]),
      nodes.map((node) => structure[node]),
    ),
    lastStepMm: quantile(
      trusted.map((node) => step[node]),
      0.95,
    ),
    trusted,
  };
}

/** @throws {LastrinseError} `registration-failed`: the frames don't show the same picture where they were laid together. */
export function checkAgreement(agreement: Agreement, input: string | undefined): void {
  const { matchedShare, medianNcc, trusted } = agreement;
  const remedy =
    "Check that both files show the same sheet, flat, in focus, at 300 dpi or more, and scan again.";
  if (!(matchedShare >= LEAST_MATCHED_SHARE))
    throw registrationFailed(
      `Expected the sheet's picture to be found again in the after scan; ` +
        `${percent(Number.isNaN(matchedShare) ? 0 : matchedShare)} of it was (${percent(LEAST_MATCHED_SHARE)} is needed).`,
      remedy,
      input,
    );
  if (!(medianNcc >= LEAST_MEDIAN_NCC))
    throw registrationFailed(
      `Expected the places of the sheet to look alike in both scans; their correlation is ${medianNcc.toFixed(2)} ` +
        `(${LEAST_MEDIAN_NCC} is needed).`,
      remedy,
      input,
    );
  if (trusted.length < LEAST_TRUSTED_NODES)
    throw registrationFailed(
      `Expected at least ${LEAST_TRUSTED_NODES} places of the sheet with print to hold on to; found ${trusted.length}.`,
      "Check that the after scan shows most of the printed sheet.",
      input,
    );
}

/** What is poor but usable. */
export function agreementWarnings({ medianNcc, lastStepMm }: Agreement): Warning[] {
  const warnings: Warning[] = [];
  if (medianNcc < DOUBTFUL_MEDIAN_NCC)
    warnings.push({
      code: "weak-registration",
      message:
        `Laid on each other, the scans agree weakly (correlation ${medianNcc.toFixed(2)}; ` +
        `${DOUBTFUL_MEDIAN_NCC} or more is usual).`,
    });
  if (!((lastStepMm * LAST_STEP_DPI) / MM_PER_INCH <= DOUBTFUL_LAST_STEP_PIXELS))
    warnings.push({
      code: "weak-registration",
      message:
        `The scans could be laid on each other to ${lastStepMm.toFixed(2)} mm only ` +
        `(${(MM_PER_INCH / LAST_STEP_DPI).toFixed(2)} mm is usual); fine detail may show change that isn't there.`,
    });
  return warnings;
}
