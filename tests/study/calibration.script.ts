/**
 * The long table of calibration: null errors, floors and found fades on simulated pairs, against the limits asked of them.
 * Run: npx tsx tests/study/calibration.script.ts [pairs a row]. Seeded: the same table every time.
 */
import { mean, quantile } from "../../src/numeric/statistics.ts";
import { studyPairs } from "../calibrate/pairStudy.ts";
import type { StudiedRegion } from "../calibrate/pairStudy.ts";
import type { Device, Wash } from "../calibrate/simulatedPair.ts";
import { ALL_FADED, MAGENTA_FADED, NO_WASH, PHONE, SCANNER } from "../calibrate/simulatedPair.ts";

const PAIRS = 40;
const pairs = Number(process.argv[2] ?? PAIRS);
const seeds = Array.from({ length: pairs }, (_, i) => i + 1);

const rows: readonly (readonly [string, Device, Wash, boolean])[] = [
  ["scanner 1 %, unchanged", { ...SCANNER, drift: 0.01 }, NO_WASH, true],
  ["scanner 2 %, unchanged", SCANNER, NO_WASH, true],
  ["scanner 3 %, unchanged", { ...SCANNER, drift: 0.03 }, NO_WASH, true],
  ["the same, no control strip", SCANNER, NO_WASH, false],
  ["phone, unchanged", PHONE, NO_WASH, true],
  ["the same, no control strip", PHONE, NO_WASH, false],
  ["scanner 2 %, magenta -10 %", SCANNER, MAGENTA_FADED, true],
  ["scanner 2 %, all inks -15 %", SCANNER, ALL_FADED, true],
  ["phone, all inks -15 %", PHONE, ALL_FADED, true],
];

const percent = (part: number): string =>
  (Number.isNaN(part) ? "-" : `${(100 * part).toFixed(0)} %`).padStart(6);
const fixed = (value: number): string => (Number.isNaN(value) ? "-" : value.toFixed(2)).padStart(6);
const share = (
  regions: readonly StudiedRegion[],
  holds: (one: StudiedRegion) => boolean,
): number => (regions.length === 0 ? NaN : regions.filter(holds).length / regions.length);

console.log(`${pairs} pairs of 12 regions a row; errors and floors in dE00.
error: of the measured against the true change. floor: mean, and mean when 12 are judged together. covered: unchanged regions not above
their floor. 95 %: true change inside its interval. found: changed regions above the floor for 12. false: pairs with a claim on an
unchanged region. ratio: measured by true change.
`);
console.log(
  "row".padEnd(30) + "  mean   p95   rms floor   (12) covered   95 %  found  false  ratio  models",
);
for (const [name, device, wash, control] of rows) {
  const regions = studyPairs(device, wash, seeds, control);
  const errors = regions.map(({ deltaE00, region }) => Math.abs(deltaE00 - region.trueDeltaE00));
  const changed = regions.filter(({ region }) => region.trueDeltaE00 > 0);
  const unchanged = regions.filter(({ region }) => region.trueDeltaE00 === 0);
  const models = new Map<string, number>();
  for (const { model } of regions) models.set(model, (models.get(model) ?? 0) + 1 / 12);
  const claimed = new Set(
    unchanged.filter((one) => one.deltaE00 > one.floorTogether).map(({ seed }) => seed),
  );
  console.log(
    name.padEnd(30) +
      fixed(mean(errors)) +
      fixed(quantile(errors, 0.95)) +
      fixed(Math.sqrt(mean(errors.map((error) => error ** 2)))) +
      fixed(mean(regions.map(({ floor }) => floor))) +
      fixed(mean(regions.map(({ floorTogether }) => floorTogether))).padStart(7) +
      percent(share(unchanged, ({ deltaE00, floor }) => deltaE00 <= floor)).padStart(8) +
      percent(
        share(
          regions,
          ({ interval: { low, high }, region: { trueDeltaE00 } }) =>
            low <= trueDeltaE00 && trueDeltaE00 <= high,
        ),
      ).padStart(7) +
      percent(share(changed, (one) => one.deltaE00 > one.floorTogether)).padStart(7) +
      percent(claimed.size / pairs).padStart(7) +
      fixed(mean(changed.map(({ deltaE00, region }) => deltaE00 / region.trueDeltaE00))).padStart(
        7,
      ) +
      `  ${[...models].map(([model, count]) => `${model} ${count.toFixed(0)}`).join(", ")}`,
  );
}
