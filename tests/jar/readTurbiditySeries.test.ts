import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readTurbiditySeries } from "../../src/jar/readTurbiditySeries.ts";

let directory: string;
beforeAll(async () => {
  directory = await mkdtemp(join(tmpdir(), "jar-files-"));
});
afterAll(() => rm(directory, { recursive: true }));

async function written(name: string, content: unknown): Promise<string> {
  const file = join(directory, name);
  await writeFile(file, typeof content === "string" ? content : JSON.stringify(content));
  return file;
}

const refusal = (code: string, message: RegExp): Error =>
  expect.objectContaining({ code, message: expect.stringMatching(message) as string }) as Error;

describe("turbidity series", () => {
  const series = (points: unknown): unknown => ({
    schema: "lastrinse.turbidity-series",
    version: 1,
    points,
  });

  test("paths are taken relative to the file; the point of 0 FNU is its blank", async () => {
    const points = [0, 5, 10, 20, 40].map((fnu) => ({ file: `jar-${fnu}.png`, fnu }));
    const read = await readTurbiditySeries(await written("series.json", series(points)));
    expect(read.unit).toBe("FNU");
    expect(read.blank).toBe(resolve(directory, "jar-0.png"));
    expect(read.points).toHaveLength(4);
    expect(read.points[1]).toEqual({ file: resolve(directory, "jar-10.png"), strength: 10 });
  });

  test("relative strengths instead of FNU", async () => {
    const points = [0.125, 0.25, 0.5, 1].map((relative) => ({ file: "x.png", relative }));
    const read = await readTurbiditySeries(await written("relative.json", series(points)));
    expect(read).toMatchObject({ unit: "relative", blank: null });
  });

  test("too few points, or a mixture of units, is refused", async () => {
    for (const points of [
      [{ file: "a.png", fnu: 5 }],
      [
        { file: "a.png", fnu: 5 },
        { file: "b.png", fnu: 10 },
        { file: "c.png", relative: 1 },
        { file: "d.png", fnu: 40 },
      ],
    ])
      await expect(readTurbiditySeries(await written("few.json", series(points)))).rejects.toThrow(
        refusal("bad-json", /points/),
      );
  });
});
