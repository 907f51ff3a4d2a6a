import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { writeOutputs } from "../../cli/writeOutputs.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const NAMES = ["result.json", "plates.png"];

function formerRun(name: string): string {
  const out = join(folder, name);
  mkdirSync(out);
  for (const file of ["plates.png", "plates.txt"]) writeFileSync(join(out, file), "former");
  return out;
}

describe("files that a former run left", () => {
  test("with leave to overwrite, an output that this run does not fill is gone, and a file of another name stays", async () => {
    const out = formerRun("overwritten");
    await writeOutputs(out, { "result.json": "new" }, true, NAMES);
    expect(existsSync(join(out, "plates.png"))).toBe(false);
    expect(readFileSync(join(out, "plates.txt"), "utf8")).toBe("former");
    expect(readFileSync(join(out, "result.json"), "utf8")).toBe("new");
  });

  test("without leave nothing is removed", async () => {
    const out = formerRun("kept");
    await writeOutputs(out, { "result.json": "new" }, false, NAMES);
    expect(readFileSync(join(out, "plates.png"), "utf8")).toBe("former");
  });

  test("a folder of that name is not removed: it is told", async () => {
    const out = join(folder, "occupied");
    mkdirSync(join(out, "plates.png"), { recursive: true });
    await expect(writeOutputs(out, { "result.json": "new" }, true, NAMES)).rejects.toMatchObject({
      code: "output-unwritable",
    });
    expect(existsSync(join(out, "plates.png"))).toBe(true);
  });
});
