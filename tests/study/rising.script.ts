/**
 * How often a series is called rising: `npx tsx tests/study/rising.script.ts [draws]`. False alarms on drawn treatments whose ink does not rise,
 * and detection of series that do, each read through its own camera beside soil.
 */
import { inkShareOf } from "../../src/bath/inkShareOf.ts";
import { isRising } from "../../src/bath/isRising.ts";
import { choosePalette } from "../../src/bath/palette.ts";
import type { BathReading } from "../../src/bath/reading.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { drawBench, readJar } from "../support/drawJar.ts";
import { drawTreatment } from "../support/simulateTreatments.ts";

const draws = Number(process.argv[2] ?? 150);
const random = seededRandom(9);

function amountsOf(id: string, lab: Triple, paperLab: Triple, readings: readonly BathReading[]) {
  const palette = choosePalette([{ id, lab, blot: "doubtful" }], paperLab, null, null);
  return readings.flatMap(
    (reading) => inkShareOf(reading, palette, new Map()).components.get(id) ?? [],
  );
}

const asked = [0, 0, 0];
const alarms = [0, 0, 0];
for (let k = 0; k < draws; k++) {
  const { ink, readings, print, evidence } = drawTreatment(random);
  const { id } = evidence(1).inks[0];
  const amounts = amountsOf(id, print.inkLab, print.paperLab, readings.slice(0, 4));
  for (const n of [2, 3, 4]) {
    if (ink.slice(0, n - 1).some((before) => ink[n - 1] > 1.1 * before)) continue;
    asked[n - 2]++;
    if (isRising(amounts.slice(0, n))) alarms[n - 2]++;
  }
}
console.log(
  `false alarms after 2, 3, 4 baths: ${alarms.map((count, i) => (count / asked[i]).toFixed(3)).join(" ")}`,
);

for (const [soil, red] of [
  [
    [0.05, 0.03, 0.02],
    [0.004, 0.01, 0.016],
  ],
  [
    [0.03, 0.02, 0.014],
    [0.004, 0.012, 0.03],
  ],
  [
    [0.06, 0.035, 0.02],
    [0.006, 0.012, 0.012],
  ],
]) {
  let found = 0;
  for (let k = 0; k < draws; k++) {
    const bench = drawBench(random);
    const readings = soil.map(
      (amount, i) => readJar(random, { soil: amount, inks: { red: red[i] } }, bench).reading,
    );
    const amounts = amountsOf("red", [59.84, 45.33, 33.97], [78, 3, 19], readings);
    if (isRising(amounts.slice(0, 2)) || isRising(amounts)) found++;
  }
  console.log(
    `red ${red.join(" ")} beside soil ${soil.join(" ")}: found in ${(found / draws).toFixed(2)}`,
  );
}
