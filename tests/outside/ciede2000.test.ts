import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { sharedData, sharedDataAvailable } from "../support/sharedData.ts";
import {
  ICC_9,
  PUBLIC_DOMAIN_15,
  type PublishedPair,
  SHARMA_34,
} from "./tables/ciede2000-pairs.ts";

/** Half a unit of the printed decimal. */
const sets = [
  { name: "Sharma, Wu & Dalal 2005, 34 pairs", pairs: SHARMA_34, tolerance: 5e-5, count: 34 },
  { name: "ICC HDR working group 2020, 9 pairs", pairs: ICC_9, tolerance: 5e-5, count: 9 },
  { name: "public-domain set, 15 pairs", pairs: PUBLIC_DOMAIN_15, tolerance: 5e-11, count: 15 },
];

function split(pair: PublishedPair) {
  const [L1, a1, b1, L2, a2, b2, printed] = pair;
  return { reference: [L1, a1, b1] as const, sample: [L2, a2, b2] as const, printed };
}

describe.each(sets)("CIEDE2000 against $name", ({ pairs, tolerance, count }) => {
  test("the table is whole", () => {
    expect(pairs).toHaveLength(count);
  });

  test("every pair, in both orders", () => {
    for (const pair of pairs) {
      const { reference, sample, printed } = split(pair);
      expect(Math.abs(ciede2000(reference, sample) - printed)).toBeLessThanOrEqual(tolerance);
      expect(Math.abs(ciede2000(sample, reference) - printed)).toBeLessThanOrEqual(tolerance);
    }
  });
});

const FILES = [
  ["ciede2000-34-pairs.csv", SHARMA_34],
  ["ciede2000-reference-1.csv", SHARMA_34],
  ["ciede2000-reference-2.csv", ICC_9],
  ["ciede2000-reference-3.csv", PUBLIC_DOMAIN_15],
] as const;
const available = FILES.every(([name]) => sharedDataAvailable(`colour/${name}`));

describe.skipIf(!available)(
  `against the whole published files${available ? "" : " (skipped: no shared data)"}`,
  () => {
    test.each(FILES)("%s holds the figures carried over here", (name, pairs) => {
      const rows = readFileSync(sharedData(`colour/${name}`), "utf8")
        .split(/\r?\n/)
        .filter((line) => /^[-\d]/.test(line))
        .map((line) => line.split(",").map(Number).slice(-7));
      expect(rows).toEqual(pairs);
    });
  },
);
