import { inverse, Matrix } from "ml-matrix";
import { expect, test } from "vitest";
import { bandedMatrix, invertBandInPlace } from "../../src/numeric/bandedInverse.ts";
import { seededRandom } from "../../src/numeric/random.ts";

test.each([
  [1, 0],
  [12, 3],
  [25, 7],
])("the band of the inverse of a %i x %i matrix", (size, band) => {
  const random = seededRandom(4);
  const banded = bandedMatrix(size, band);
  const full = Matrix.zeros(size, size);
  for (let j = 0; j < size; j++)
    for (let k = 0; k <= Math.min(band, size - 1 - j); k++) {
      // Strong diagonal: positive definite by Gershgorin's circles.
      const value = k === 0 ? 2 * (band + 1) + random.uniform() : 2 * random.uniform() - 1;
      banded.values[j * (band + 1) + k] = value;
      full.set(j + k, j, value);
      full.set(j, j + k, value);
    }
  expect(invertBandInPlace(banded)).toBe(true);
  const truth = inverse(full);
  for (let j = 0; j < size; j++)
    for (let k = 0; k <= Math.min(band, size - 1 - j); k++)
      expect(banded.values[j * (band + 1) + k]).toBeCloseTo(truth.get(j + k, j), 12);
});

test("no inverse of what is not positive definite", () => {
  const flat = bandedMatrix(2, 1);
  flat.values.set([1, 1, 1]);
  expect(invertBandInPlace(flat)).toBe(false);
});
