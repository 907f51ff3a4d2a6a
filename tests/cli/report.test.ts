import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { jsonOf, runCli } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();

describe("report of a record without any scan", () => {
  const record = join(folder, "no-scan");
  const page = join(record, "report", "report.html");

  beforeAll(async () => {
    await runCli(["open", record, "--title", "Before the scan"]);
    await runCli(["blot", record, "--ink", "red", "--result", "bleeds", "--minutes", "5"]);
  });

  test("a dry run names the files and writes none", async () => {
    const { stdout } = await runCli(["report", record, "--dry-run"]);
    expect(stdout).toContain("report.html");
    expect(stdout).not.toContain("inks.csv");
    expect(existsSync(page)).toBe(false);
  });

  test("goes into the record's own folder; the second report is the first, byte by byte", async () => {
    const answer = jsonOf(await runCli(["report", record, "--json"]));
    expect(answer).toEqual({
      schema: "lastrinse.report",
      version: 1,
      kind: "interim",
      files: ["report.html", "result.json"],
    });
    const first = readFileSync(page);
    expect(first.toString()).toContain("Do not put this cover into the bath.");
    expect((await runCli(["report", record])).status).toBe(0);
    expect(readFileSync(page).equals(first)).toBe(true);
    expect(readdirSync(join(record, "report")).sort()).toEqual(["report.html", "result.json"]);
    // The report is no event: the record stays as it was.
    expect(readdirSync(join(record, "events"))).toEqual(["000001.json", "000002.json"]);
  });

  test("a folder that was named is not written over", async () => {
    const out = join(folder, "for-the-owner");
    expect((await runCli(["report", record, "--out", out])).status).toBe(0);
    const again = await runCli(["report", record, "--out", out, "--json"]);
    expect(again.status).toBe(2);
    expect(again.stdout).toContain("output-exists");
  });
});
