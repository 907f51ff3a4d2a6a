import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";
import { loadCard } from "../../src/card/loadCard.ts";
import { compareScans } from "../../src/compare/compareScans.ts";
import { closeVision } from "../../src/vision/pool.ts";

const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));

afterAll(closeVision);

/** Everything that a comparison of the sample pair gives, as bytes. */
async function compared(workers: number): Promise<Record<string, Buffer>> {
  // A pool that runs already would keep its size.
  await closeVision();
  const { result, difference, pictures } = await compareScans({
    before: { file: sample("before.png"), state: "dry" },
    after: { file: sample("after.png"), state: "dry" },
    card: await loadCard(undefined),
    workers,
  });
  const { inkPart, ...drawn } = await pictures;
  return {
    ...drawn,
    inkPart: inkPart ?? Buffer.alloc(0),
    result: Buffer.from(JSON.stringify(result)),
    map: Buffer.from(difference.buffer, difference.byteOffset, difference.byteLength),
  };
}

test("a whole comparison: the same bytes from one worker and from two", async () => {
  const one = await compared(1);
  const two = await compared(2);
  expect(Object.keys(two)).toEqual([
    "inks",
    "difference",
    "before",
    "after",
    "inkPart",
    "result",
    "map",
  ]);
  for (const [name, bytes] of Object.entries(two)) {
    expect(bytes.length, name).toBeGreaterThan(1000);
    expect(bytes.equals(one[name]), name).toBe(true);
  }
});
