/**
 * Whether the tests notice a formula that is wrong by one character: copies the project, puts in each fault of `faults.ts` in turn,
 * runs the tests that should notice, and prints which did. Run: npm run mutate
 * Exit status: 0 every fault was caught, 1 one was not (or the tests fail without any), 2 a formula to be changed is not found.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Fault, FAULTS } from "./faults.ts";

const PROJECT = fileURLToPath(new URL("../../", import.meta.url));

/** The files under version control, as they are now; the packages are linked. Reference data beside the project stays behind. */
function copyProject(): string {
  const copy = mkdtempSync(join(tmpdir(), "mutation-"));
  const list = execFileSync("git", ["ls-files", "-z", "src", "calibration", "tests", "sample-images", "*.json", "*.ts"], { cwd: PROJECT, encoding: "utf8" }); // prettier-ignore
  for (const name of new Set(list.split("\0")))
    if (name !== "") cpSync(join(PROJECT, name), join(copy, name));
  symlinkSync(join(PROJECT, "node_modules"), join(copy, "node_modules"));
  return copy;
}

interface Report {
  readonly testResults: readonly {
    readonly name: string;
    readonly assertionResults: readonly { readonly status: string; readonly fullName: string }[];
  }[];
}

interface Failure {
  /** Test file below `tests/`. */
  readonly file: string;
  readonly test: string;
}

/** The tests that failed; null: the run itself broke, so nothing was learned. */
function failures(copy: string, tests: readonly string[]): readonly Failure[] | null {
  const output = join(copy, "report.json");
  rmSync(output, { force: true });
  const vitest = join(copy, "node_modules", "vitest", "vitest.mjs");
  spawnSync(process.execPath, [vitest, "run", ...tests, "--reporter=json", `--outputFile=${output}`], { cwd: copy, stdio: "ignore" }); // prettier-ignore
  try {
    const { testResults } = JSON.parse(readFileSync(output, "utf8")) as Report;
    // A file that could not even be loaded has no tests in it.
    if (testResults.some(({ assertionResults }) => assertionResults.length === 0)) return null;
    return testResults.flatMap(({ name, assertionResults }) =>
      assertionResults
        .filter(({ status }) => status === "failed")
        .map(({ fullName }) => ({ file: name.replace(/.*\/tests\//, ""), test: fullName.trim() })),
    );
  } catch {
    return null;
  }
}

/** Test files with the number of tests that failed in each. */
function byFile(failed: readonly Failure[]): string {
  const counts = new Map<string, number>();
  for (const { file } of failed) counts.set(file, (counts.get(file) ?? 0) + 1);
  return [...counts].map(([file, n]) => `${file} (${String(n)})`).join(", ");
}

/** The file with the fault in it, or null where the original text is not there exactly once. */
function withFault({ file, original, faulty }: Fault): string | null {
  const text = readFileSync(join(PROJECT, file), "utf8");
  return text.split(original).length === 2 ? text.replace(original, () => faulty) : null;
}

const lost = FAULTS.filter((fault) => withFault(fault) === null);
if (lost.length > 0) {
  for (const { file, original } of lost)
    console.error(`Not found exactly once in ${file}: ${original}`);
  process.exitCode = 2;
} else {
  const copy = copyProject();
  try {
    const sound = failures(copy, [...new Set(FAULTS.flatMap(({ tests }) => tests))]);
    if (sound === null || sound.length > 0) {
      console.error(`Without any fault: ${sound === null ? "the run broke" : byFile(sound)}`);
      process.exitCode = 1;
    } else {
      let caught = 0;
      console.log("| file | fault | caught by (tests that fail) | for one |");
      console.log("| --- | --- | --- | --- |");
      for (const fault of FAULTS) {
        writeFileSync(join(copy, fault.file), withFault(fault) ?? "");
        const failed = failures(copy, fault.tests);
        cpSync(join(PROJECT, fault.file), join(copy, fault.file));
        if (failed !== null && failed.length > 0) caught++;
        const by = failed === null ? "the run broke" : byFile(failed) || "NOT CAUGHT";
        console.log(`| ${fault.file} | ${fault.meaning} | ${by} | ${failed?.at(-1)?.test ?? ""} |`);
      }
      console.log(`\n${String(caught)} of ${String(FAULTS.length)} faults caught.`);
      if (caught < FAULTS.length) process.exitCode = 1;
    }
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}
