import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { SOLID_COVERAGE } from "./paintSheet.ts";
import { CONDITION_MM } from "./paperConditions.ts";
import type { PaperConditions } from "./paperConditions.ts";
import { LATTICE_MM } from "./plates.ts";
import type { Plates } from "./plates.ts";
import { standardObserver } from "./scanner.ts";
import type { Washing } from "./sheetSpectra.ts";
import { UNWASHED, sheetPrimaries } from "./sheetSpectra.ts";

/** What really happened to an area. Colours are CIELAB D50 of the mean linear light over it; differences are CIEDE2000. */
export interface AreaTruth {
  readonly areaCm2: number;
  readonly labBefore: Triple;
  readonly labAfter: Triple;
  /** The same ink, nothing lost, on the washed paper. */
  readonly labUntouched: Triple;
  readonly deltaE00: number;
  /** Before against untouched ink on the washed paper. */
  readonly paperPartDeltaE00: number;
  /** Untouched ink on the washed paper against after. */
  readonly inkPartDeltaE00: number;
}

/** A printed sheet and what washing does to it. */
export interface TreatedSheet {
  readonly plates: Plates;
  readonly conditionsBefore: PaperConditions;
  readonly conditionsAfter: PaperConditions;
  readonly outline: (x: number, y: number) => number;
  readonly washing: Washing;
  readonly backing: number;
}

/** Adds up places of the sheet and tells what happened to them together. */
export interface TruthTally {
  readonly add: (xMm: number, yMm: number) => void;
  /** @param areaMm2 Area that each added place stands for. */
  readonly result: (areaMm2: number) => AreaTruth;
}

/** Share of each overprint at a place, by the rule of Demichel: screens at different angles overlap by chance. */
function overprintShares(plates: Plates, xMm: number, yMm: number, out: Float64Array): void {
  const column = Math.min(plates.columns - 1, Math.max(0, Math.floor(xMm / LATTICE_MM)));
  const row = Math.min(plates.rows - 1, Math.max(0, Math.floor(yMm / LATTICE_MM)));
  const at = row * plates.columns + column;
  out[0] = 1;
  for (let ink = 0, known = 1; ink < 4; ink++, known *= 2) {
    const line = plates.line[ink][at] / 255;
    const coverage = line * SOLID_COVERAGE + ((1 - line) * plates.tone[ink][at]) / 255;
    for (let k = 0; k < known; k++) {
      out[k + known] = out[k] * coverage;
      out[k] *= 1 - coverage;
    }
  }
}

function conditionShare(
  conditions: PaperConditions,
  condition: number,
  x: number,
  y: number,
): number {
  const cx = Math.min(conditions.columns - 1.001, Math.max(0, x / CONDITION_MM));
  const cy = Math.min(conditions.rows - 1.001, Math.max(0, y / CONDITION_MM));
  const column = Math.floor(cx);
  const row = Math.floor(cy);
  const u = cx - column;
  const v = cy - row;
  const plane = conditions.shares[condition];
  const at = row * conditions.columns + column;
  const below = at + conditions.columns;
  return (
    (plane[at] * (1 - u) + plane[at + 1] * u) * (1 - v) +
    (plane[below] * (1 - u) + plane[below + 1] * u) * v
  );
}

/** @returns Makes an empty tally; the spectra are computed once. */
export function truthTallies(sheet: TreatedSheet): () => TruthTally {
  const states = [
    UNWASHED,
    sheet.washing,
    { ...sheet.washing, inkLoss: UNWASHED.inkLoss, dullBlack: 0 },
  ].map((state) =>
    sheetPrimaries(state, sheet.backing).map((row) => row.map((R) => standardObserver(R))),
  );
  const conditionCount = states[0].length;
  const shares = new Float64Array(16);
  return () => {
    const before = new Float64Array(16 * conditionCount);
    const after = new Float64Array(16 * conditionCount);
    let count = 0;
    const labOf = (tally: Float64Array, state: number): Triple => {
      const xyz = [0, 0, 0];
      tally.forEach((share, i) => {
        const colour = states[state][Math.floor(i / 16)][i % 16];
        for (let c = 0; c < 3; c++) xyz[c] += (share / count) * colour[c];
      });
      return xyzD50ToLab([xyz[0], xyz[1], xyz[2]]);
    };
    return {
      add: (x, y) => {
        overprintShares(sheet.plates, x, y, shares);
        count++;
        for (let condition = 0; condition < conditionCount; condition++) {
          const was = conditionShare(sheet.conditionsBefore, condition, x, y);
          const is = conditionShare(sheet.conditionsAfter, condition, x, y);
          if (was === 0 && is === 0) continue;
          for (let k = 0; k < 16; k++) {
            before[16 * condition + k] += was * shares[k];
            after[16 * condition + k] += is * shares[k];
          }
        }
      },
      result: (areaMm2) => {
        const labBefore = labOf(before, 0);
        const labAfter = labOf(after, 1);
        const labUntouched = labOf(after, 2);
        return {
          areaCm2: (count * areaMm2) / 100,
          labBefore,
          labAfter,
          labUntouched,
          deltaE00: ciede2000(labBefore, labAfter),
          paperPartDeltaE00: ciede2000(labBefore, labUntouched),
          inkPartDeltaE00: ciede2000(labUntouched, labAfter),
        };
      },
    };
  };
}

/** Places this far from another colour count for the truth of a region. */
export const CORE_MM = 1;

/**
 * The label plane with everything within {@link CORE_MM} of another label set to 0.
 * @returns As `plates.label`.
 */
export function regionCores(plates: Plates): Uint8Array {
  const { columns, rows, label } = plates;
  const reach = Math.round(CORE_MM / LATTICE_MM);
  const along = new Uint8Array(label.length);
  const cores = new Uint8Array(label.length);
  const erode = (
    source: Uint8Array,
    target: Uint8Array,
    lines: number,
    length: number,
    [lineStep, step]: readonly [number, number],
  ): void => {
    for (let line = 0; line < lines; line++) {
      const base = line * lineStep;
      for (let start = 0; start < length;) {
        const value = source[base + start * step];
        let end = start;
        while (end < length && source[base + end * step] === value) end++;
        const from = start === 0 ? 0 : start + reach;
        const to = end === length ? length : end - reach;
        if (value !== 0) for (let i = from; i < to; i++) target[base + i * step] = value;
        start = end;
      }
    }
  };
  erode(label, along, rows, columns, [columns, 1]);
  erode(along, cores, columns, rows, [1, columns]);
  return cores;
}
