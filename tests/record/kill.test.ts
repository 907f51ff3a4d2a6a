import { spawn } from "node:child_process";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { readEvents } from "../../src/record/readEvents.ts";
import { jsonOf, runCli } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const APPEND = new URL("../../dist/src/record/appendEvent.js", import.meta.url).href;

/** Writes events without end, and says the id of each as soon as it is finished. */
const WRITER = `
  const { appendEvent } = await import(${JSON.stringify(APPEND)});
  process.stdout.write("ready\\n");
  for (let i = 0; ; i++) {
    const { id } = await appendEvent(process.argv[1], {
      kind: "step", at: "2026-05-04T10:00:00+02:00", program: "test", inputs: [],
      settings: { what: "step " + i + " " + "x".repeat(3000), area: null, bleed: null },
    });
    process.stdout.write(id + "\\n");
  }`;

const ROUNDS = 50;
/** From the moment the writer is ready: some rounds end before the first event, some after several. */
const LONGEST_LIFE_MS = 60;

test("a record killed at 50 random moments opens, holds every finished event, and can be exported", async () => {
  const record = join(temporaryFolder(), "record");
  expect((await runCli(["open", record, "--title", "Killed"])).status).toBe(0);
  const random = seededRandom(11);
  const finished = new Set<string>(["000001"]);
  for (let round = 0; round < ROUNDS; round++) {
    const child = spawn(process.execPath, ["--input-type=module", "-e", WRITER, record], {
      stdio: ["ignore", "pipe", "inherit"],
      cwd: fileURLToPath(new URL("../..", import.meta.url)),
    });
    let said = "";
    const closed = new Promise((resolve) => child.on("close", resolve));
    await new Promise<void>((ready) => {
      child.stdout.on("data", (chunk: Buffer) => {
        said += chunk.toString();
        ready();
      });
    });
    await wait(random.uniform() * LONGEST_LIFE_MS);
    child.kill("SIGKILL");
    await closed;
    // The last line may be cut; a cut id names an event that was finished all the same, but can't be checked by name.
    for (const id of said.split("\n").slice(1, -1)) finished.add(id);
    const { events, damaged } = await readEvents(record);
    expect(damaged).toEqual([]);
    const ids = new Set(events.map((event) => event.id));
    expect([...finished].filter((id) => !ids.has(id))).toEqual([]);
  }
  expect(finished.size).toBeGreaterThan(ROUNDS);
  const exported = await runCli(["export", record, "--json"]);
  expect(exported.status).toBe(0);
  const { events } = jsonOf(exported) as { events: { id: string }[] };
  expect(events.length).toBeGreaterThanOrEqual(finished.size);
});
