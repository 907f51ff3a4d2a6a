/**
 * Whole comparisons of rendered pairs with exact truth: nothing changed, only cleaned, faded. Prints the table of
 * the README beside this file. Run: npx tsx tests/study/pairs.script.ts [sheet width in mm] (compile first: npm run build).
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PAIR_DEFAULTS } from "../../sample-images/scene/pairOptions.ts";
import { renderPair } from "../../sample-images/scene/renderPair.ts";
import { CARDS } from "../../src/card/cards.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { compareScans } from "../../src/compare/compareScans.ts";
import { measuredCells } from "../../src/compare/measuredCells.ts";
import { median, quantile } from "../../src/numeric/statistics.ts";
import { encodePng } from "../../src/picture/encodePng.ts";
import { closeVision } from "../../src/vision/pool.ts";

const NO_LOSS = { yellow: 0, red: 0, blue: 0, black: 0 };
const UNCHANGED = { yellowingRemoved: 0, soilRemoved: 0, inkLoss: NO_LOSS };

type Options = Parameters<typeof renderPair>[0];

/** dE00 about 3 and 10 for a red solid: shares of the ink that went. */
const FADE_3 = 0.22;
const FADE_10 = 0.6;

const only = process.argv[2];
const cases: { name: string; kind: "null" | "clean" | "faded"; options: NonNullable<Options> }[] = [
  ...Array.from({ length: 10 }, (_, i) => ({
    name: `nothing changed, seed ${String(i + 1)}`,
    kind: "null" as const,
    options: { ...UNCHANGED, seed: i + 1, drift: 0.01 + 0.02 * (i / 9) },
  })),
  ...[0.2, 0.36, 0.5].map((share, i) => ({
    name: `only cleaned, ${String(Math.round(100 * share))} % of the yellowing`,
    kind: "clean" as const,
    options: { yellowingRemoved: share, soilRemoved: share, inkLoss: NO_LOSS, seed: 20 + i },
  })),
  ...[FADE_3, FADE_10].flatMap((loss, i) => [
    {
      name: `red faded, ${String(100 * loss)} %`,
      kind: "faded" as const,
      options: { inkLoss: { ...NO_LOSS, red: loss }, seed: 30 + i },
    },
    {
      name: `all inks faded, ${String(100 * loss)} %`,
      kind: "faded" as const,
      options: { inkLoss: { yellow: loss, red: loss, blue: loss, black: loss }, seed: 40 + i },
    },
  ]),
];

const folder = mkdtempSync(join(tmpdir(), "lastrinse-pairs-"));
console.log(
  "| pair | inks | error of dE00, median / largest | error of ink part, median | floor, largest | false dE00 p95 | called ink-lost | registration p95, px at 600 dpi | sheet measured | of the inks, median / least |",
);
console.log("|---|---|---|---|---|---|---|---|---|---|");
let claims = 0;
let judged = 0;
let intervals = 0;
let held = 0;
const inkPartErrors: Record<string, number[]> = { null: [], clean: [], faded: [] };
const dEErrors: number[] = [];
for (const { name, kind, options } of cases) {
  if (only !== undefined && !name.includes(only)) continue;
  const pair = renderPair({ ...PAIR_DEFAULTS, ...options });
  const files = await Promise.all(
    (["before", "after"] as const).map(async (side) => {
      const { width, height, data } = pair[side];
      const file = join(folder, `${side}.png`);
      const dpi = side === "before" ? pair.dpiBefore : pair.dpiAfter;
      writeFileSync(
        file,
        await encodePng({ width, height, channels: 3, data: data as Uint8Array }, dpi),
      );
      return file;
    }),
  );
  const { result, regions, difference, before } = await compareScans({
    before: { file: files[0], state: "dry" },
    after: { file: files[1], state: "dry" },
    card: CARDS[0],
  });
  const usable = Uint8Array.from(difference, (value) => (Number.isNaN(value) ? 0 : 1));
  const measured = measuredCells(regions, (before.stepX * 25.4) / pair.dpiBefore, usable);
  const errors: number[] = [];
  const parts: number[] = [];
  const floors: number[] = [];
  let lost = 0;
  for (const ink of result.inks) {
    if (ink.deltaE00 === null || ink.labBefore === null) continue;
    // Truth over the very cells that the tool measured.
    const own = measured.ofLabel.get(ink.label);
    if (own === undefined) continue;
    const cells = new Set(own);
    const inside = (x: number, y: number): boolean => {
      const column = Math.round((x + 0.5) / before.stepX - 0.5);
      const row = Math.round((y + 0.5) / before.stepY - 0.5);
      const cell = row * before.width + column;
      return cells.has(cell);
    };
    const truth = pair.truth.over(inside, 0.5);
    errors.push(Math.abs(ink.deltaE00 - truth.deltaE00));
    intervals++;
    if ((ink.deltaE00Low ?? 0) <= truth.deltaE00 && truth.deltaE00 <= (ink.deltaE00High ?? NaN))
      held++;
    if (ink.inkPartDeltaE00 !== null)
      parts.push(Math.abs(ink.inkPartDeltaE00 - ciede2000(truth.labUntouched, truth.labAfter)));
    floors.push(ink.floorDeltaE00 ?? NaN);
    if (ink.verdict === "ink-lost") lost++;
    if (kind === "null") {
      judged++;
      if (ink.deltaE00 > (ink.floorDeltaE00 ?? 0)) claims++;
    }
  }
  dEErrors.push(...errors);
  inkPartErrors[kind].push(...parts);
  const residuals = result.registration.points.map((point) => {
    const [x, y] = pair.truth.mapBeforeToAfterPixels(point.before[0], point.before[1]);
    return (Math.hypot(x - point.after[0], y - point.after[1]) / pair.dpiAfter) * 600;
  });
  const onCores = difference.filter(
    (value, cell) => regions.cores[cell] !== 0 && !Number.isNaN(value),
  );
  const falseP95 = kind === "null" ? quantile(onCores, 0.95).toFixed(2) : "";
  const share = (value = NaN): string => `${(100 * value).toFixed(0)} %`;
  const shares = result.inks.map(({ measuredShare }) => measuredShare ?? NaN);
  console.log(
    `| ${name} | ${String(errors.length)} | ${median(errors).toFixed(2)} / ${Math.max(...errors).toFixed(2)} | ${median(parts).toFixed(2)} | ${Math.max(...floors).toFixed(2)} | ${falseP95} | ${String(lost)} | ${quantile(residuals, 0.95).toFixed(2)} | ${share(result.registration.measuredShare)} | ${share(median(shares))} / ${share(Math.min(...shares))} |`,
  );
}
console.log(
  `\nError of dE00: median ${median(dEErrors).toFixed(2)}, largest ${Math.max(...dEErrors).toFixed(2)}. Claims where nothing changed: ${String(claims)} of ${String(judged)}. Error of the ink part, median: unchanged ${median(inkPartErrors.null).toFixed(2)}, cleaned ${median(inkPartErrors.clean).toFixed(2)}, faded ${median(inkPartErrors.faded).toFixed(2)}. The 95 % interval of dE00 holds the truth: ${String(held)} of ${String(intervals)}.`,
);
rmSync(folder, { recursive: true });
await closeVision();
