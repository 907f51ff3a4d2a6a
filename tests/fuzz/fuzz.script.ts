/**
 * Thousands of damaged files through every reader, in this process. Run: npm run fuzz [seed]. The same seed gives the same
 * files. Writes the table into tests/fuzz/README.md and every file that crashed a reader into tests/fuzz/found/.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type FuzzCase, runFuzz } from "./runFuzz.ts";

const SEED = Number(process.argv[2] ?? 7);

/** A whole run takes a few minutes; one that takes longer is cut off and says so by its count. */
const MOST_MILLISECONDS = 20 * 60_000;

/** Longer for one file counts as a hang: the largest sample takes about a second on a slow machine. */
const HANG_MILLISECONDS = 20_000;

const HERE = fileURLToPath(new URL(".", import.meta.url));

function tableRow(reader: string, cases: readonly FuzzCase[]): string {
  const count = (outcome: string): number => cases.filter((one) => one.outcome === outcome).length;
  const codes = [...new Set(cases.map(({ outcome }) => outcome))]
    .filter((outcome) => outcome !== "read" && outcome !== "crash")
    .sort()
    .map((code) => `${code} ${String(count(code))}`);
  const longest = Math.max(...cases.map(({ milliseconds }) => milliseconds));
  const hangs = cases.filter(({ milliseconds }) => milliseconds > HANG_MILLISECONDS).length;
  return `| ${reader} | ${String(cases.length)} | ${String(count("read"))} | ${codes.join(", ")} | ${String(count("crash"))} | ${String(hangs)} | ${(longest / 1000).toFixed(2)} |`;
}

const folder = mkdtempSync(join(tmpdir(), "lastrinse-fuzz-"));
const cases = await runFuzz(folder, {
  seed: SEED,
  share: 1,
  mostMilliseconds: MOST_MILLISECONDS,
});
rmSync(folder, { recursive: true, force: true });

const readers = [...new Set(cases.map(({ reader }) => reader))];
const table = [
  "| reader | files | still read | refused, by code | crashes | hangs | longest, s |",
  "| --- | ---: | ---: | --- | ---: | ---: | ---: |",
  ...readers.map((reader) =>
    tableRow(
      reader,
      cases.filter((one) => one.reader === reader),
    ),
  ),
  tableRow("all", cases),
].join("\n");
const day = new Date().toISOString().slice(0, 10);
const run = `Seed ${String(SEED)}, ${String(cases.length)} files, ${day}:\n\n${table}`;

const readme = join(HERE, "README.md");
const [head] = readFileSync(readme, "utf8").split("<!-- last run -->");
writeFileSync(readme, `${head}<!-- last run -->\n\n${run}\n`);
process.stdout.write(`${run}\n`);

const crashes = cases.filter(({ outcome }) => outcome === "crash");
for (const { name, number, thrown, bytes } of crashes) {
  mkdirSync(join(HERE, "found"), { recursive: true });
  const file = join(HERE, "found", `seed-${String(SEED)}-${String(number)}-${name.replaceAll(" ", "-")}`); // prettier-ignore
  writeFileSync(file, bytes);
  process.stderr.write(`${file}: ${thrown instanceof Error ? (thrown.stack ?? "") : String(thrown)}\n`); // prettier-ignore
}
if (crashes.length > 0 || cases.some(({ milliseconds }) => milliseconds > HANG_MILLISECONDS))
  process.exitCode = 1;
