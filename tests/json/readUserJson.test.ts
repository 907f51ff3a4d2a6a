import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";
import { LastrinseError } from "../../src/errors.ts";
import { readUserJson } from "../../src/json/readUserJson.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const SCHEMA = z.object({ points: z.array(z.object({ fnu: z.number() })) });
const FILE = { what: "a list of points", remedy: "Mend it." };

async function refusal(content: string): Promise<LastrinseError> {
  const path = join(folder, "points.json");
  writeFileSync(path, content);
  const error: unknown = await readUserJson(path, SCHEMA, FILE).catch((thrown: unknown) => thrown);
  if (error instanceof LastrinseError) return error;
  throw new Error("nothing was refused");
}

test("a sound file is read, also behind a byte order mark", async () => {
  const path = join(folder, "good.json");
  writeFileSync(path, '\uFEFF{"points":[{"fnu":3}]}');
  expect(await readUserJson(path, SCHEMA, FILE)).toEqual({ points: [{ fnu: 3 }] });
});

test("a wrong entry is named by its path and line", async () => {
  const { code, message, input } = await refusal('{ "points": [\n {"fnu": 1},\n {"fnu": "2"}\n]}');
  expect(code).toBe("bad-json");
  expect(message).toMatch(/points\[1\]\.fnu: .* \(line 3\)/);
  expect(input).toMatch(/points\.json$/);
});

test("of very many wrong entries the first are named, the others counted", async () => {
  const { message } = await refusal(`{"points":[${'{"fnu":null},'.repeat(99)}{"fnu":null}]}`);
  expect(message).toMatch(/points\[7\]\.fnu.*92 more wrong entries/);
  expect(message).not.toMatch(/points\[8\]/);
});

test("text that is no JSON is named by its line", async () => {
  expect((await refusal('{\n"points": [\n{,}]}')).message).toMatch(/no JSON in line 3/);
});

test("a file that is not there, and a folder, are unreadable", async () => {
  mkdirSync(join(folder, "sub"));
  for (const name of ["none.json", "sub"])
    await expect(readUserJson(join(folder, name), SCHEMA, FILE)).rejects.toMatchObject({
      code: "unreadable",
    });
});
