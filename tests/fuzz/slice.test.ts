import { writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { runFuzz } from "./runFuzz.ts";
import { subjects } from "./subjects.ts";

const folder = temporaryFolder();

/** One in seventeen of a whole run. */
const SHARE = 0.058;

test("every good file of the fuzzing is read: damage is all that refusals can come from", async () => {
  for (const { name, path, bytes, read } of await subjects(folder)) {
    writeFileSync(path, bytes);
    await read().catch((error: unknown) => expect.fail(`${name}: ${String(error)}`));
  }
});

test("some three hundred damaged files: each is read or refused in words, none crashes a reader", async () => {
  const cases = await runFuzz(folder, { seed: 7, share: SHARE, mostMilliseconds: Infinity });
  expect(cases.length).toBeGreaterThan(290);
  const crashes = cases.filter(({ outcome }) => outcome === "crash");
  expect(crashes.map(({ name, number, thrown }) => [name, number, String(thrown)])).toEqual([]);
  // Both ends are reached: damage that is seen and damage that can't be.
  const outcomes = new Set(cases.map(({ outcome }) => outcome));
  for (const outcome of ["read", "unreadable", "unsupported-format", "bad-json", "record-damaged"])
    expect(outcomes).toContain(outcome);
});
