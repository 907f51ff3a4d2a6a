/**
 * Whether two builds say the same of the sample files: the JSON of `compare` (and its pictures), `jar`, `advise` and `card check`.
 * Run: npx tsx tests/study/sameBytes.script.ts DIST OTHER_DIST. Ends with 1 at the first field that differs.
 */
import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { copyFile, mkdir, mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { promisify } from "node:util";
import type * as demoRecord from "../../cli/demoRecord.ts";

/** Left out: when a result was made, how long that took and by which program. */
const LEFT_OUT = new Set(["at", "recordedAt", "seconds", "milliseconds", "program"]);
/** What was known after so many events of the sample treatment: before the first bath, after two, dried. */
const STAGES = [6, 9, 12];

const SAMPLES = fileURLToPath(new URL("../../sample-images", import.meta.url));
const sample = (name: string): string => join(SAMPLES, name);
const run = promisify(execFile);

const [one, other] = process.argv.slice(2);
if (one === undefined || other === undefined) {
  console.error("name two built trees: DIST OTHER_DIST");
  process.exit(2);
}
const scratch = await mkdtemp(join(tmpdir(), "lastrinse-same-"));
try {
  const [here, there] = [await resultsOf(one, "one"), await resultsOf(other, "other")];
  const path = firstDifference(here, there, "");
  console.log(path === null ? "the same" : `differs at ${path}`);
  process.exitCode = path === null ? 0 : 1;
} finally {
  await rm(scratch, { recursive: true, force: true });
}

async function resultsOf(dist: string, name: string): Promise<Record<string, unknown>> {
  const folder = join(scratch, name);
  await mkdir(folder);
  const ask = async (...words: readonly string[]): Promise<unknown> => {
    const program = resolve(dist, "cli/lastrinse.js");
    const { stdout } = await run(process.execPath, [program, ...words, "--json", "--quiet"], {
      maxBuffer: 1 << 28,
    });
    return JSON.parse(stdout);
  };
  const out = join(folder, "compare");
  const photos = [1, 2, 3].map((bath) => sample(`jar-bath-${String(bath)}.jpg`));
  const bench = ["--blank", sample("jar-blank.jpg"), "--station", sample("station.json")];
  return {
    card: await ask("card", "check", sample("before.png")),
    jar: await ask("jar", ...photos, ...bench, "--evidence", sample("evidence.json")),
    compare: await ask("compare", sample("before.png"), sample("after.png"), "--out", out),
    advise: await advices(dist, folder, ask),
    pictures: await hashesOf(out),
  };
}

async function advices(
  dist: string,
  folder: string,
  ask: (...words: string[]) => Promise<unknown>,
): Promise<unknown[]> {
  const whole = join(folder, "record");
  const module = pathToFileURL(resolve(dist, "cli/demoRecord.js")).href;
  const { writeDemoRecord } = (await import(module)) as typeof demoRecord;
  await writeDemoRecord(whole, SAMPLES);
  const events = (await readdir(join(whole, "events"))).sort();
  const advices: unknown[] = [];
  for (const stage of STAGES) {
    const record = join(folder, `stage-${String(stage)}`);
    await mkdir(join(record, "events"), { recursive: true });
    for (const event of events.slice(0, stage))
      await copyFile(join(whole, "events", event), join(record, "events", event));
    advices.push(await ask("advise", record));
  }
  return advices;
}

async function hashesOf(folder: string): Promise<Record<string, string>> {
  const names = (await readdir(folder)).filter((name) => name.endsWith(".png")).sort();
  const hashes: Record<string, string> = {};
  for (const name of names)
    hashes[name] = createHash("sha256")
      .update(await readFile(join(folder, name)))
      .digest("hex");
  return hashes;
}

/** Path of the first value that differs, with both; the order of keys counts, for it is printed. */
function firstDifference(a: unknown, b: unknown, path: string): string | null {
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null)
    return a === b ? null : `${path}: ${JSON.stringify(a)} and ${JSON.stringify(b)}`;
  const [left, right] = [a, b].map((part) =>
    Object.entries(part).filter(([key]) => !LEFT_OUT.has(key)),
  );
  for (let i = 0; i < Math.max(left.length, right.length); i++) {
    const key = left.at(i)?.[0] ?? right[i][0];
    if (left.at(i)?.[0] !== right.at(i)?.[0])
      return `${path}.${key}: ${left.at(i)?.[0] ?? "nothing"} and ${right.at(i)?.[0] ?? "nothing"}`;
    const found = firstDifference(left[i][1], right[i][1], `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}
