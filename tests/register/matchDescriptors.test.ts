import { expect, test } from "vitest";
import { seededRandom, type Random } from "../../src/numeric/random.ts";
import { matchDescriptors, packDescriptors } from "../../src/register/matchDescriptors.ts";

const BYTES = 61;

function randomDescriptors(random: Random, count: number): Uint8Array {
  return Uint8Array.from({ length: count * BYTES }, () => random.below(256));
}

function hamming(a: Uint8Array, b: Uint8Array): number {
  let bits = 0;
  a.forEach((byte, k) => {
    for (let x = byte ^ b[k]; x !== 0; x &= x - 1) bits++;
  });
  return bits;
}

/** Bit by bit, without an early end. */
function naive(query: Uint8Array, train: Uint8Array): number[] {
  const row = (all: Uint8Array, i: number): Uint8Array => all.subarray(i * BYTES, (i + 1) * BYTES);
  return Array.from({ length: query.length / BYTES }, (_, i) => {
    const distances = Array.from({ length: train.length / BYTES }, (__, j) =>
      hamming(row(query, i), row(train, j)),
    );
    const [best, second] = [...distances].sort((a, b) => a - b);
    return best < 0.85 * (second ?? Infinity) ? distances.indexOf(best) : -1;
  });
}

const every = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

test("finds what a plain search finds", () => {
  const random = seededRandom(4);
  const train = randomDescriptors(random, 120);
  // Half of the queries are noisy copies: some stand out, some don't.
  const query = randomDescriptors(random, 80);
  for (let i = 0; i < 40; i++)
    for (let k = 0; k < BYTES; k++) {
      const noise = random.uniform() < i / 60 ? random.below(256) : 0;
      query[i * BYTES + k] = train[2 * i * BYTES + k] ^ noise;
    }
  const matches = matchDescriptors(
    packDescriptors(query, BYTES, every(80)),
    packDescriptors(train, BYTES, every(120)),
  );
  const expected = naive(query, train);
  expect([...matches]).toEqual(expected);
  expect(expected.filter((match) => match >= 0).length).toBeGreaterThan(20);
  expect(expected.filter((match) => match < 0).length).toBeGreaterThan(20);
});

test("two equal candidates make no match", () => {
  const one = randomDescriptors(seededRandom(9), 1);
  const twice = Uint8Array.from([...one, ...one]);
  const matches = matchDescriptors(
    packDescriptors(one, BYTES, [0]),
    packDescriptors(twice, BYTES, [0, 1]),
  );
  expect([...matches]).toEqual([-1]);
});

test("nothing matches nothing", () => {
  const none = packDescriptors(new Uint8Array(0), 0, []);
  const some = packDescriptors(randomDescriptors(seededRandom(1), 3), BYTES, every(3));
  expect([...matchDescriptors(none, some)]).toEqual([]);
  expect([...matchDescriptors(some, none)]).toEqual([-1, -1, -1]);
});
