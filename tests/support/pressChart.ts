import { readFileSync } from "node:fs";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { solveCoverages } from "../../src/plates/coverages.ts";
import { absorptionsOfSolid, inkLawOnPaper } from "../../src/plates/inkLaw.ts";
import { type Primaries, primariesOf, YULE_NIELSEN } from "../../src/plates/primaries.ts";
import { bandsOfXyz, xyzOfBands } from "../../src/print/plateBands.ts";
import { sharedData } from "./sharedData.ts";

/** Tone values yellow, magenta, cyan, black in percent and XYZ D50, white Y = 1. */
export interface Patch {
  readonly tones: readonly [number, number, number, number];
  readonly xyz: Triple;
}

/** Published measurements of a press, repeated patches averaged: see the provenance beside the files. */
export function readPress(name: string): readonly Patch[] {
  const sums = new Map<string, { tones: Patch["tones"]; xyz: number[]; count: number }>();
  const lines = readFileSync(sharedData(`presses/${name}.csv`), "utf8")
    .trim()
    .split(/\r?\n/);
  for (const line of lines.slice(1)) {
    const [y, m, c, k, ...xyz] = line.split(",").map(Number);
    const key = [y, m, c, k].join(" ");
    const sum = sums.get(key) ?? { tones: [y, m, c, k] as const, xyz: [0, 0, 0], count: 0 };
    for (let i = 0; i < 3; i++) sum.xyz[i] += xyz[i] / 100;
    sum.count++;
    sums.set(key, sum);
  }
  return [...sums.values()].map(({ tones, xyz: [X, Y, Z], count }) => ({
    tones,
    xyz: [X / count, Y / count, Z / count],
  }));
}

const logBands = ({ xyz }: Patch): Triple => {
  const [r, g, b] = bandsOfXyz(xyz).map((band) => Math.log(Math.max(band, 0.003)));
  return [r, g, b];
};

/** A press as the model knows it: its paper and its four solids, and nothing of its overprints. */
export function pressModel(patches: readonly Patch[]) {
  const patchOf = (tones: readonly number[]): Patch => {
    const found = patches.find((patch) => patch.tones.every((tone, i) => tone === tones[i]));
    if (found === undefined) throw new RangeError(`Expected a patch ${tones.join(" ")}.`);
    return found;
  };
  const paper = logBands(patchOf([0, 0, 0, 0]));
  const logT = (patch: Patch): Triple => {
    const [r, g, b] = logBands(patch);
    return [r - paper[0], g - paper[1], b - paper[2]];
  };
  const law = inkLawOnPaper([Math.exp(paper[0]), Math.exp(paper[1]), Math.exp(paper[2])]);
  const inks = [0, 1, 2, 3].map((plate) => {
    const solid = patchOf([0, 1, 2, 3].map((i) => (i === plate ? 100 : 0)));
    const [r, g, b] = logT(solid).map(Math.exp);
    return absorptionsOfSolid(law, [r, g, b]);
  });
  const primariesAt = (film: number): Primaries => primariesOf(law, inks, film, [0, 0, 0, 0]);
  const labOfOverprint = ({ Q, count }: Primaries, plates: number): Triple => {
    const [r, g, b] = [0, 1, 2].map(
      (c) => Math.exp(paper[c]) * Q[c * count + plates] ** YULE_NIELSEN,
    );
    return xyzD50ToLab(xyzOfBands([r, g, b]));
  };
  return { patchOf, logT, law, inks, primariesAt, labOfOverprint };
}

type PressModel = ReturnType<typeof pressModel>;

/** dE00 of the four overprints of coloured inks. */
export function overprintErrors(press: PressModel, film: number): readonly number[] {
  const primaries = press.primariesAt(film);
  return [0b011, 0b101, 0b110, 0b111].map((plates) => {
    const tones = [0, 1, 2, 3].map((i) => ((plates >> i) & 1 ? 100 : 0));
    return ciede2000(
      xyzD50ToLab(press.patchOf(tones).xyz),
      press.labOfOverprint(primaries, plates),
    );
  });
}

/** What coverage a tone value prints, by the ramp of that plate alone; straight lines between its patches. */
export function rampsOf(
  press: PressModel,
  patches: readonly Patch[],
  film: number,
): readonly ((tone: number) => number)[] {
  return [0, 1, 2, 3].map((plate) => {
    const alone = primariesOf(press.law, [press.inks[plate]], film, [0]);
    const ramp = new Map<number, number>([[0, 0]]);
    for (const patch of patches) {
      if (patch.tones.some((tone, i) => i !== plate && tone !== 0)) continue;
      const c = Float64Array.of(0.25);
      solveCoverages(alone, Float64Array.from(press.logT(patch)), [0], c, 14);
      ramp.set(patch.tones[plate], patch.tones[plate] === 0 ? 0 : c[0]);
    }
    const tones = [...ramp.keys()].sort((a, b) => a - b);
    return (tone) => {
      const above = tones.findIndex((value) => value >= tone);
      const [x1, y1] = [tones[above], ramp.get(tones[above]) ?? NaN];
      if (x1 === tone) return y1;
      const [x0, y0] = [tones[above - 1], ramp.get(tones[above - 1]) ?? NaN];
      return y0 + ((tone - x0) / (x1 - x0)) * (y1 - y0);
    };
  });
}
