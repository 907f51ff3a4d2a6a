import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";
import { derivedStore } from "../../src/record/derivedStore.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();

test("what could not be measured is NaN when it is computed and when it is read again: null would count as 0", async () => {
  const store = derivedStore(join(folder, "nan"));
  const figures = { absorbance: [0.25, NaN, -Infinity], fnu: null, nested: { sigma: Infinity } };
  let computed = 0;
  const kept = () =>
    store.keep(
      "000002-jar",
      ["sources"],
      () => {
        computed++;
        return Promise.resolve(figures);
      },
      z.unknown(),
    );
  expect(await kept()).toEqual(figures);
  expect(await kept()).toEqual(figures);
  expect(computed).toBe(1);
  expect((await kept()).absorbance[1] + 1).toBeNaN();
});

test("other sources, a damaged file or one of an older form are made anew", async () => {
  const record = join(folder, "anew");
  const store = derivedStore(record);
  const value = (sources: unknown, answer: number) =>
    store.keep("x", sources, () => Promise.resolve(answer), z.number());
  expect(await value(["a"], 1)).toBe(1);
  expect(await value(["a"], 2)).toBe(1);
  expect(await value(["b"], 3)).toBe(3);
  // A source that is not a number differs from null.
  expect(await value([NaN], 4)).toBe(4);
  expect(await value([null], 5)).toBe(5);
  const path = join(record, "derived", "x.json");
  writeFileSync(path, readFileSync(path, "utf8").replace('"text":"5"', '"text":"6"'));
  expect(await value([null], 7)).toBe(7);
});

test("bytes come back as they were", async () => {
  const store = derivedStore(join(folder, "bytes"));
  const bytes = Uint8Array.of(0, 255, 7);
  const kept = () => store.keepBytes("p", [], () => Promise.resolve(bytes));
  expect([...(await kept())]).toEqual([0, 255, 7]);
  expect([...(await kept())]).toEqual([0, 255, 7]);
});
