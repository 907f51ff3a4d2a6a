/**
 * Separation of plates on sheets of known loss, drawn by `tests/support/drawPlates.ts`: every row that is demanded of it. Prints the tables of the
 * README beside this file. Run: npx tsx tests/study/plates.script.ts
 */
import { median, quantile } from "../../src/numeric/statistics.ts";
import { cellsOfPlanes } from "../../src/plates/plateCells.ts";
import { separatePlates } from "../../src/plates/separatePlates.ts";
import { type DrawnPlates, drawPlates, type PlateScene } from "../support/drawPlates.ts";

const ALL = [true, true, true, true] as const;
const TWO = [false, true, false, true] as const;
type Case = Omit<PlateScene, "seed" | "stock" | "tone" | "edges"> & { readonly name: string };
const washed = (name: string, losses: PlateScene["losses"], more: Partial<Case> = {}): Case => ({
  name,
  losses,
  has: ALL,
  washed: true,
  gloss: 0,
  ...more,
});
const CASES: readonly Case[] = [
  washed("unchanged", [0, 0, 0, 0], { washed: false }),
  washed("cleaned only", [0, 0, 0, 0]),
  washed("red 10", [0, 0.1, 0, 0]),
  washed("blue 10", [0, 0, 0.1, 0]),
  washed("red 20", [0, 0.2, 0, 0]),
  washed("blue 15", [0, 0, 0.15, 0]),
  washed("red 30", [0, 0.3, 0, 0]),
  washed("yellow 25", [0.25, 0, 0, 0]),
  washed("all 20", [0.2, 0.2, 0.2, 0.2]),
  washed("red uneven, mean 22", [0, 0.22, 0, 0], { uneven: true }),
  washed("gloss taken", [0, 0, 0, 0], { gloss: 0.005 }),
  washed("two inks, red 15", [0, 0.15, 0, 0], { has: TWO }),
];
const STOCKS = ["newsprint", "uncoated", "calendered", "coated"] as const;
const NAMES = ["yellow", "red", "blue", "black"] as const;
/** What a plate must cover of the sheet for the rows that ask for it. */
const COVERED = 0.15;

const percent = (value: number): string => (100 * value).toFixed(0);
const rows: { name: string; i: number; truth: number; has: boolean; covered: boolean; lost: number; low: number; high: number; verdict: string }[] = []; // prettier-ignore
const maps: string[] = [];
console.log("| pair | stock, tone, edges | yellow | red | blue | black | h | D |");
console.log("|---|---|---|---|---|---|---|---|");
let pair = 0;
for (const stock of STOCKS)
  for (const one of CASES) {
    const tone = pair % 4 === 3 ? "contone" : "halftone";
    const edges = pair % 5 < 2 ? "bleed" : "margin";
    const scene: PlateScene = { ...one, seed: 7001 + 13 * pair, stock, tone, edges };
    pair++;
    const drawn = drawPlates(scene);
    const { plates, model, map } = separatePlates(cellsOfPlanes(drawn), { seed: 5 });
    const cells = (plates ?? []).map((plate, i) => {
      rows.push({
        name: one.name,
        i,
        truth: one.losses[i],
        has: one.has[i],
        covered: drawn.meanCoverage[i] >= COVERED,
        lost: plate.lost,
        low: plate.low,
        high: plate.high,
        verdict: plate.verdict,
      });
      const text = `${percent(plate.lost)} (${percent(plate.low)}-${percent(plate.high)})`;
      return plate.verdict === "lost" ? `**${text}**` : text;
    });
    if (plates === null) cells.push("refused", "", "", "");
    console.log(
      `| ${one.name} | ${stock}, ${tone}, ${edges} | ${cells.join(" | ")} | ${model.meanFilm?.toFixed(2) ?? ""} | ${model.darkness?.toFixed(1) ?? ""} |`,
    );
    const red = map?.plates[1];
    if (one.uneven === true && red !== undefined) maps.push(mapText(drawn, red, map?.columns ?? 1));
  }

function mapText(
  { width, height, factor }: DrawnPlates,
  tiles: readonly ({ readonly lost: number } | null)[],
  columns: number,
): string {
  const truth: number[] = [];
  const read: number[] = [];
  tiles.forEach((tile, at) => {
    if (tile === null) return;
    let [sum, count] = [0, 0];
    for (
      let y = 20 * Math.floor(at / columns);
      y < Math.min(height, 20 * Math.floor(at / columns) + 20);
      y++
    )
      // prettier-ignore
      for (let x = 20 * (at % columns); x < Math.min(width, 20 * (at % columns) + 20); x++) {
        sum += factor[y * width + x];
        count++;
      }
    truth.push((0.22 * sum) / count);
    read.push(tile.lost);
  });
  const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
  const [mt, mr] = [mean(truth), mean(read)];
  const cov = (a: readonly number[], ma: number, b: readonly number[], mb: number): number => mean(a.map((v, i) => (v - ma) * (b[i] - mb))); // prettier-ignore
  const r = cov(truth, mt, read, mr) / Math.sqrt(cov(truth, mt, truth, mt) * cov(read, mr, read, mr)); // prettier-ignore
  return `${r.toFixed(2)} over ${truth.length} tiles`;
}

const share = (list: readonly boolean[]): string => `${list.filter(Boolean).length} of ${list.length}`; // prettier-ignore
const coloured = rows.filter(({ i }) => i < 3);
const none = coloured.filter(({ truth, has }) => truth === 0 && has);
const lost = coloured.filter(({ truth }) => truth > 0);
const redBlue = lost.filter(({ i, truth }) => i > 0 && truth >= 0.1);
const holds = ({ truth, low, high }: (typeof rows)[number]): boolean => truth >= low && truth <= high; // prettier-ignore
const within = lost.map(({ lost: F, truth }) => F / truth >= 0.7 && F / truth <= 1.4);
console.log("\n| what | came out | limit |\n|---|---|---|");
const print = (what: string, value: string, limit: string): void => {
  console.log(`| ${what} | ${value} | ${limit} |`);
};
print("coloured plate that lost nothing, called lost", share(none.map(({ verdict }) => verdict === "lost")), "2 %"); // prettier-ignore
print("the same, black", share(rows.filter(({ i, truth, has }) => i === 3 && truth === 0 && has).map(({ verdict }) => verdict === "lost")), "-"); // prettier-ignore
print("plate that the press has not, called lost", share(rows.filter(({ has }) => !has).map(({ verdict }) => verdict === "lost")), "none"); // prettier-ignore
print("red or blue lost 10 % or more, called lost", share(redBlue.map(({ verdict }) => verdict === "lost")), "90 %"); // prettier-ignore
print("yellow lost 20 to 25 %, called lost", share(lost.filter(({ i }) => i === 0).map(({ verdict }) => verdict === "lost")), "-"); // prettier-ignore
print("interval holds the truth, coloured plates", share(coloured.filter(({ has }) => has).map(holds)), "92 %"); // prettier-ignore
print("the same, black", share(rows.filter(({ i, has }) => i === 3 && has).map(holds)), "92 %");
print("F within 0.7 to 1.4 of the truth", share(within), "75 %");
print("F over truth: median (p10 to p90)", ((v) => `${median(v).toFixed(2)} (${quantile(v, 0.1).toFixed(2)}-${quantile(v, 0.9).toFixed(2)})`)(lost.map(({ lost: F, truth }) => F / truth)), "-"); // prettier-ignore
print("median half width where lost", median(lost.map(({ low, high }) => (high - low) / 2)).toFixed(3), "0.10"); // prettier-ignore
const named = (name: string) => rows.filter((row) => row.name === name);
const largest = (list: typeof rows, of: "lost" | "high"): string => list.length === 0 ? "-" : percent(Math.max(...list.map((row) => row[of]))); // prettier-ignore
const still = named("unchanged");
print("unchanged: largest F; high, coloured and black", `${largest(still, "lost")}; ${largest(still.filter(({ i }) => i < 3), "high")}, ${largest(still.filter(({ i }) => i === 3), "high")}`, "1; 3, 12"); // prettier-ignore
const cleaned = named("cleaned only").filter(({ covered }) => covered);
print("cleaned only: largest F of yellow, red, blue, black", NAMES.map((_, k) => largest(cleaned.filter(({ i }) => i === k), "lost")).join(", "), "8, 5, 5, 10"); // prettier-ignore
print("cleaned only: largest high of yellow, red, blue", NAMES.slice(0, 3).map((_, k) => largest(cleaned.filter(({ i }) => i === k), "high")).join(", "), "16, 14, 12"); // prettier-ignore
const gloss = named("gloss taken").filter(({ i }) => i < 3);
print("gloss taken: called lost; largest F, high", `${share(gloss.map(({ verdict }) => verdict === "lost"))}; ${largest(gloss, "lost")}, ${largest(gloss, "high")}`, "none; 8, 18"); // prettier-ignore
print("map of uneven red: correlation", maps.join("; "), "0.6, 0.75 where red covers half");
