import sharp from "sharp";
import { expect, test } from "vitest";
import type { Correction } from "../../src/calibrate/correction.ts";
import { comparisonPictures } from "../../src/compare/comparisonPictures.ts";
import { pictureOfPlanes } from "../../src/picture/pictureOfPlanes.ts";
import { SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import { HEAT_MAP_COLOURS } from "../../src/picture/heatMap.ts";
import { compareResult } from "../support/treatmentView.ts";

const PLAIN: Correction = {
  model: "3x3",
  curves: [{ kind: "identity" }, { kind: "identity" }, { kind: "identity" }],
  matrix: SRGB_TO_XYZ_D50,
  offset: [0, 0, 0],
  plate: null,
};
const [WIDTH, HEIGHT] = [4, 2];
const grey = (value: number) => new Float32Array(WIDTH * HEIGHT).fill(value);
const planes = { width: WIDTH, height: HEIGHT, stepX: 2, stepY: 2, channels: [grey(0.5), grey(0.5), grey(0.5)] as const }; // prettier-ignore

test("each cell is judged by the floor of its own ink, bare and unknown cells by the paper's; labels come out as they are", async () => {
  const { paper, inks } = compareResult();
  const areas = {
    paper: { ...paper!, floorDeltaE00: 1 },
    inks: [
      { ...inks[0], label: 1, floorDeltaE00: 0.2 },
      { ...inks[0], label: 2, floorDeltaE00: null },
    ],
  };
  const labels = Uint8Array.of(1, 2, 255, 0, 1, 255, 255, 1);
  const difference = Float32Array.of(0.5, 0.5, 0.5, 0.5, 0.1, 1.5, NaN, 12);
  const pictures = await comparisonPictures({
    areas,
    labels,
    difference,
    before: pictureOfPlanes(planes, PLAIN, 150),
    after: planes,
    correctionAfter: PLAIN,
    dpi: 150,
  });
  const raw = async (picture: Buffer) => [...(await sharp(picture).raw().toBuffer())];
  expect([...(await sharp(pictures.inks).toColourspace("b-w").raw().toBuffer())]).toEqual([...labels]); // prettier-ignore
  const colours = await raw(pictures.difference);
  const of = (cell: number) => colours.slice(3 * cell, 3 * cell + 3);
  const { belowFloor, noData, beyondScale } = HEAT_MAP_COLOURS;
  expect(of(0)).not.toEqual([...belowFloor]);
  for (const below of [1, 2, 3, 4]) expect(of(below)).toEqual([...belowFloor]);
  expect(of(5)).not.toEqual([...belowFloor]);
  expect(of(6)).toEqual([...noData]);
  expect(of(7)).toEqual([...beyondScale]);
  // Half the light is code 188 of sRGB.
  for (const code of await raw(pictures.after)) expect(Math.abs(code - 188)).toBeLessThanOrEqual(1);
  const { width, height, density } = await sharp(pictures.before).metadata();
  expect([width, height, density]).toEqual([WIDTH, HEIGHT, 150]);
});
