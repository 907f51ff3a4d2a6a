// How well a paper part is told from an ink part: channel scaling against the two-layer model, on sheets of known truth.
// Run: npx tsx tests/study/paperPart.script.ts (about a minute). Its last result stands at the foot of this file.
import { REGIONS } from "../../sample-images/scene/cover.ts";
import { pairScenes } from "../../sample-images/scene/pairScenes.ts";
import type { PairOptions } from "../../sample-images/scene/pairOptions.ts";
import { expectByLayers } from "../../src/print/expectByLayers.ts";
import { expectByScaling } from "../../src/print/expectByScaling.ts";
import { splitPaperAndInk } from "../../src/change/splitPaperAndInk.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { median, quantile } from "../../src/numeric/statistics.ts";
import { washedPrint } from "../support/variedSheet.ts";

const EXACT = [0, 0, 0, 0, 0, 0, 0, 0, 0] as const;
const MODELS: Readonly<Record<string, (ink: Triple, from: Triple, to: Triple) => Triple>> = {
  "paper ignored": (ink) => ink,
  "channel scaling": (ink, from, to) => expectByScaling(ink, from, to),
  "two layers": (ink, from, to) => expectByLayers(from)(ink)(to),
};
const round = (value: number): string => value.toFixed(2);
const row = (...cells: readonly string[]): void => {
  console.log(`| ${cells.join(" | ")} |`);
};

const SHEETS = 600;
console.log(`\n${SHEETS} varied sheets, nothing lost: dE00 between expected and untouched ink\n`);
row("model", "median", "p90", "max", "share of the paper's dE00: median", "p97.5");
row("---", "---", "---", "---", "---", "---");
const sheets = Array.from({ length: SHEETS }, (_, i) => washedPrint(i + 1));
for (const [name, model] of Object.entries(MODELS)) {
  const errors = sheets.map(({ before, untouched, paperBefore, paperAfter }) =>
    ciede2000(model(before, paperBefore, paperAfter), untouched),
  );
  const shares = sheets.map(
    ({ paperBefore, paperAfter }, i) => errors[i] / ciede2000(paperBefore, paperAfter),
  );
  row(
    name,
    round(median(errors)),
    round(quantile(errors, 0.9)),
    round(Math.max(...errors)),
    round(median(shares)),
    round(quantile(shares, 0.975)),
  );
}
const claimed = sheets.filter(
  ({ before, untouched, paperBefore, paperAfter }) =>
    splitPaperAndInk(
      { labBefore: before, labAfter: untouched, covariance: EXACT },
      { labBefore: paperBefore, labAfter: paperAfter, covariance: EXACT },
    ).low > 0,
);
console.log(`\nInk part above zero (exact colours): ${claimed.length} of ${SHEETS}`);
for (const loss of [0.12, 0.4]) {
  const inside = sheets.filter((_, i) => {
    const { before, after, untouched, paperBefore, paperAfter } = washedPrint(i + 1, loss);
    const { low, high } = splitPaperAndInk(
      { labBefore: before, labAfter: after, covariance: EXACT },
      { labBefore: paperBefore, labAfter: paperAfter, covariance: EXACT },
    );
    const truth = ciede2000(untouched, after);
    return truth >= low && truth <= high;
  });
  console.log(`Loss ${loss}: truth inside the interval in ${inside.length} of ${SHEETS}`);
}

const KEPT = { yellow: 0, red: 0, blue: 0, black: 0 };
const WASHES: readonly (readonly [string, Partial<PairOptions>])[] = [
  ["clean only, light", { yellowingRemoved: 0.15, soilRemoved: 0.2, inkLoss: KEPT }],
  ["clean only", { inkLoss: KEPT }],
  ["clean only, strong", { yellowingRemoved: 0.6, soilRemoved: 0.7, inkLoss: KEPT }],
  ["red -12 %", { inkLoss: { ...KEPT, red: 0.12 } }],
  ["all -15 %", { inkLoss: { yellow: 0.15, red: 0.15, blue: 0.15, black: 0.15 } }],
  ["blue -60 %", { inkLoss: { ...KEPT, blue: 0.6 } }],
  ["clean only, unevenly", { inkLoss: KEPT, unevenCleaning: 0.5 }],
];
console.log(
  "\nThe worn cover of the samples: error of the ink part, channel scaling / two layers\n",
);
row("wash (paper dE00)", ...REGIONS);
row("---", ...REGIONS.map(() => "---"));
const errors: Record<string, number[]> = {};
for (const [wash, options] of WASHES) {
  const { inks, paper } = pairScenes(options).truth;
  row(
    `${wash} (${round(paper.deltaE00)})`,
    ...REGIONS.map((id) => {
      const ink = inks.find((truth) => truth.id === id);
      if (ink === undefined) return "";
      return ["channel scaling", "two layers"]
        .map((name) => {
          const expected = MODELS[name](ink.labBefore, paper.labBefore, paper.labAfter);
          const error = Math.abs(ciede2000(expected, ink.labAfter) - ink.inkPartDeltaE00);
          (errors[name] ??= []).push(error);
          return round(error);
        })
        .join(" / ");
    }),
  );
}
console.log();
for (const [name, list] of Object.entries(errors))
  console.log(
    `${name}: median ${round(median(list))}, p90 ${round(quantile(list, 0.9))}, max ${round(Math.max(...list))}`,
  );

/*
Last result. Every value is a dE00; the pairs of the third table are channel scaling / two layers.

600 varied sheets, nothing lost: between expected and untouched ink
| model           | median | p90  | max  | share of the paper's dE00: median | p97.5 |
| paper ignored   | 0.83   | 2.10 | 5.46 | 0.46                              | 1.06  |
| channel scaling | 0.31   | 0.87 | 2.36 | 0.17                              | 0.47  |
| two layers      | 0.12   | 0.39 | 1.52 | 0.07                              | 0.25  |
Ink part above zero (exact colours): 9 of 600
Loss 0.12: truth inside the interval in 592 of 600; loss 0.4: in 597

The worn cover of the samples: error of the ink part
| wash (paper dE00)           | red         | yellow      | blue        | light-blue  | orange      | green       | violet-br.  | black       |
| clean only, light (1.11)    | 0.42 / 0.04 | 0.24 / 0.05 | 0.41 / 0.15 | 0.09 / 0.06 | 0.24 / 0.09 | 0.41 / 0.10 | 0.63 / 0.12 | 0.45 / 0.10 |
| clean only (2.94)           | 1.12 / 0.09 | 0.64 / 0.14 | 1.05 / 0.39 | 0.23 / 0.16 | 0.64 / 0.22 | 1.08 / 0.25 | 1.68 / 0.31 | 1.23 / 0.28 |
| clean only, strong (5.66)   | 2.19 / 0.17 | 1.22 / 0.27 | 1.94 / 0.70 | 0.45 / 0.30 | 1.20 / 0.39 | 2.06 / 0.47 | 3.22 / 0.56 | 2.43 / 0.57 |
| red -12 % (2.94)            | 0.13 / 0.07 | 0.64 / 0.14 | 1.05 / 0.39 | 0.23 / 0.16 | 0.26 / 0.13 | 1.08 / 0.25 | 0.69 / 0.14 | 1.23 / 0.28 |
| all -15 % (2.94)            | 0.24 / 0.07 | 0.61 / 0.13 | 0.63 / 0.21 | 0.05 / 0.10 | 0.45 / 0.10 | 0.82 / 0.07 | 0.00 / 0.10 | 0.14 / 0.17 |
| blue -60 % (2.94)           | 1.12 / 0.09 | 0.64 / 0.14 | 0.81 / 0.17 | 0.09 / 0.08 | 0.64 / 0.22 | 0.03 / 0.16 | 0.70 / 0.05 | 1.23 / 0.28 |
| clean only, unevenly (2.78) | 1.10 / 0.12 | 0.64 / 0.19 | 1.10 / 0.47 | 0.58 / 0.45 | 0.62 / 0.18 | 1.32 / 0.47 | 1.59 / 0.30 | 1.32 / 0.11 |
channel scaling: median 0.64, p90 1.63, max 3.22
two layers:      median 0.16, p90 0.46, max 0.70
*/
