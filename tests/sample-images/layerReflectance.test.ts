import { expect, test } from "vitest";
import { layerReflectance } from "../../sample-images/scene/layerReflectance.ts";

test("a thick layer reaches the reflectivity of the textbook, whatever lies below", () => {
  // R = 1 + K/S - sqrt((K/S)^2 + 2 K/S): Kubelka & Munk 1931, also in Kubelka 1948.
  for (const ratio of [0.01, 0.1, 1, 5]) {
    const reflectivity = 1 + ratio - Math.sqrt(ratio * ratio + 2 * ratio);
    for (const background of [0, 0.5, 1])
      expect(layerReflectance(200 * ratio, 200, background)).toBeCloseTo(reflectivity, 10);
  }
});

test("a layer that absorbs nothing", () => {
  // Limit K -> 0 of the same paper: R = (S (1 - Rg) + Rg) / (S (1 - Rg) + 1).
  for (const S of [0.2, 1, 2.75])
    for (const Rg of [0, 0.3, 0.6]) {
      const limit = (S * (1 - Rg) + Rg) / (S * (1 - Rg) + 1);
      expect(layerReflectance(0, S, Rg)).toBeCloseTo(limit, 12);
      expect(layerReflectance(1e-9, S, Rg)).toBeCloseTo(limit, 6);
    }
});

test("two layers of the same stuff are one thicker layer", () => {
  const [K, S] = [0.4, 1.3];
  const below = layerReflectance(0.7 * K, 0.7 * S, 0.6);
  expect(layerReflectance(0.3 * K, 0.3 * S, below)).toBeCloseTo(layerReflectance(K, S, 0.6), 12);
});
