import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { createOnly } from "../../src/files/createOnly.ts";
import { errorCode } from "../../src/files/errorCode.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();

describe("a file that must be new", () => {
  test("is written whole, and leaves nothing else behind", async () => {
    expect(await createOnly(join(folder, "new.json"), "content")).toBe(true);
    expect(readFileSync(join(folder, "new.json"), "utf8")).toBe("content");
    expect(readdirSync(folder)).toEqual(["new.json"]);
  });

  test("never replaces one of that name, and says so", async () => {
    writeFileSync(join(folder, "taken.json"), "mine");
    expect(await createOnly(join(folder, "taken.json"), "yours")).toBe(false);
    expect(readFileSync(join(folder, "taken.json"), "utf8")).toBe("mine");
    expect(readdirSync(folder).filter((name) => name.endsWith(".part"))).toEqual([]);
  });

  test("of ten writers at once one wins", async () => {
    const path = join(folder, "race.json");
    const won = await Promise.all(
      Array.from({ length: 10 }, (_, i) => createOnly(path, String(i))),
    );
    expect(won.filter(Boolean)).toHaveLength(1);
    expect(readFileSync(path, "utf8")).toBe(String(won.indexOf(true)));
  });

  test("a folder that is not there is a fault, not a name taken", async () => {
    await expect(createOnly(join(folder, "none", "x.json"), "")).rejects.toMatchObject({
      code: "ENOENT",
    });
  });
});

test("the code of a system's error; nothing for any other", () => {
  expect(errorCode(Object.assign(new Error("x"), { code: "EBUSY" }))).toBe("EBUSY");
  expect([errorCode(new Error("x")), errorCode({ code: "EBUSY" }), errorCode(null)]).toEqual([
    undefined,
    undefined,
    undefined,
  ]);
});
