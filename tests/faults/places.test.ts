import { chmodSync, existsSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { open, type FileHandle } from "node:fs/promises";
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, test, vi } from "vitest";
import { claimOutputs, writeOutputs } from "../../cli/writeOutputs.ts";
import { appendEvent, type NewEvent } from "../../src/record/appendEvent.ts";
import { readEvents } from "../../src/record/readEvents.ts";
import { OPENED } from "../support/openedEvent.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { ask, filesBelow, refusalOf } from "./answer.ts";

const folder = temporaryFolder();
const PROGRAM = fileURLToPath(new URL("../../dist/cli/lastrinse.js", import.meta.url));

const STEP: NewEvent<"step"> = {
  ...OPENED,
  kind: "step",
  settings: { what: "blotted", area: null, bleed: null },
};

afterEach(() => vi.restoreAllMocks());

/** From now on every file takes half of its text, then the disk is full. */
async function fillDisk(): Promise<void> {
  const handle = await open(join(folder, "any"), "a");
  const prototype = Object.getPrototypeOf(handle) as FileHandle;
  await handle.close();
  vi.spyOn(prototype, "writeFile").mockImplementation(async function (this: FileHandle, content) {
    const bytes = Buffer.from(content as string);
    await this.write(bytes, 0, bytes.length >> 1, 0);
    throw Object.assign(new Error("ENOSPC: no space left on device, write"), { code: "ENOSPC" });
  });
}

describe("a full disk", () => {
  test("an event that can't be written whole is not there at all, and the record is as it was", async () => {
    const record = join(folder, "full-record");
    await appendEvent(record, OPENED);
    const before = filesBelow(record);
    await fillDisk();
    await expect(appendEvent(record, STEP)).rejects.toMatchObject({
      code: "output-unwritable",
      message: expect.stringContaining("ENOSPC") as string,
      remedy: expect.stringContaining("nothing of it was recorded") as string,
    });
    expect(filesBelow(record)).toEqual(before);
    vi.restoreAllMocks();
    // With room again the next event takes the place of the one that failed.
    expect((await appendEvent(record, STEP)).id).toBe("000002");
    expect((await readEvents(record)).damaged).toEqual([]);
  });

  test("an output that can't be written whole is not there at all; one that may be replaced stays as it was", async () => {
    const out = join(folder, "full-out");
    mkdirSync(out);
    writeFileSync(join(out, "result.json"), "old");
    const before = filesBelow(out);
    await fillDisk();
    const refused = {
      code: "output-unwritable",
      remedy: expect.stringContaining("room") as string,
    };
    await expect(writeOutputs(out, { "report.html": "x".repeat(100) }, false)).rejects.toMatchObject(refused); // prettier-ignore
    await expect(writeOutputs(out, { "result.json": "new" }, true)).rejects.toMatchObject(refused);
    expect(filesBelow(out)).toEqual(before);
  });

  test.skipIf(!existsSync("/dev/full"))(
    "a result that can't be printed whole: output-unwritable, status 3",
    async () => {
      const full = await open("/dev/full", "w");
      try {
        const run = (words: string[]) =>
          spawnSync(process.execPath, [PROGRAM, ...words], {
            stdio: ["ignore", full.fd, "pipe"],
            encoding: "utf8",
          });
        for (const words of [
          ["card", "list"],
          ["card", "show", "no-such-card", "--json"],
        ]) {
          const { status, stderr } = run(words);
          expect(status).toBe(3);
          expect(stderr).toContain("(output-unwritable)");
          expect(stderr).not.toMatch(/\n\s+at /);
        }
      } finally {
        await full.close();
      }
    },
  );

  test.skipIf(process.platform === "win32")("a reader who has seen enough is no failure", () => {
    const command = `"${process.execPath}" "${PROGRAM}" card show chart24-post2014 --json`;
    // The reader ends before anything is written.
    const { stdout, stderr } = spawnSync("sh", ["-c", `{ ${command}; echo "status $?" >&2; } | true`], { encoding: "utf8" }); // prettier-ignore
    expect([stdout, stderr]).toEqual(["", "status 0\n"]);
  });
});

describe.skipIf(process.platform === "win32")("places that may not be written", () => {
  /** As somebody who may not write there; the superuser may, so the tests step down where they run as such. */
  async function asSomebody<T>(act: () => Promise<T>): Promise<T> {
    const superuser = process.geteuid?.() === 0;
    chmodSync(folder, 0o711);
    if (superuser) process.seteuid?.(65534);
    try {
      return await act();
    } finally {
      if (superuser) process.seteuid?.(0);
    }
  }

  test("an output folder, and a record", async () => {
    const locked = join(folder, "locked");
    await appendEvent(locked, OPENED);
    chmodSync(join(locked, "events"), 0o555);
    chmodSync(locked, 0o555);
    const before = filesBelow(locked);
    await asSomebody(async () => {
      const refused = { code: "output-unwritable" };
      await expect(claimOutputs(join(locked, "out"), ["a"], false)).rejects.toMatchObject(refused);
      await expect(writeOutputs(locked, { "a.json": "{}" }, false)).rejects.toMatchObject(refused);
      await expect(appendEvent(locked, STEP)).rejects.toMatchObject(refused);
      // Reading is all that is asked of it.
      expect((await readEvents(locked)).events).toHaveLength(1);
    });
    expect(filesBelow(locked)).toEqual(before);
    chmodSync(locked, 0o755);
    chmodSync(join(locked, "events"), 0o755);
  });

  test("an event that may not be read is named, and the rest serves", async () => {
    const record = join(folder, "unreadable-event");
    await appendEvent(record, OPENED);
    await appendEvent(record, STEP);
    chmodSync(join(record, "events", "000002.json"), 0o000);
    mkdirSync(join(record, "events", "000003.json"));
    const { events, damaged } = await asSomebody(() => readEvents(record));
    expect(events).toHaveLength(1);
    expect(damaged.map(({ file }) => file)).toEqual(["000002.json", "000003.json"]);
    expect(damaged[0].problem).toContain("EACCES");
    expect(damaged[1].problem).toContain("a folder");
  });
});

test("a file where a folder should be: for --out, for a record, for a new record", async () => {
  const file = join(folder, "file");
  writeFileSync(file, "mine");
  const out = await refusalOf(["card", "sheet", "--out", file]);
  expect(out.slice(0, 2)).toEqual([3, "output-unwritable"]);
  expect((await refusalOf(["advise", file])).slice(0, 2)).toEqual([3, "record-missing"]);
  expect((await refusalOf(["open", file, "--title", "x"])).slice(0, 2)).toEqual([3, "output-unwritable"]); // prettier-ignore
  expect((await ask(["card", "sheet", "--out", join(file, "below"), "--json"])).status).toBe(3);
  expect(readdirSync(folder)).toContain("file");
  expect(Object.keys(filesBelow(folder)).filter((name) => name.endsWith(".part"))).toEqual([]);
});
