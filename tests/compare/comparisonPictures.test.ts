import sharp from "sharp";
import { expect, test } from "vitest";
import type { Correction } from "../../src/calibrate/correction.ts";
import { comparisonPictures } from "../../src/compare/comparisonPictures.ts";
import { pictureOfPlanes } from "../../src/picture/pictureOfPlanes.ts";
import { SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import type { Hatching } from "../../src/picture/hatching.ts";
import { HEAT_MAP_COLOURS, HEAT_MAP_HATCHING } from "../../src/picture/heatMap.ts";
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

/** Tones of a kind of hatching. */
const tones = ({ ground, line }: Hatching) => [ground, line].map(String);
const { belowFloor, notMeasured } = HEAT_MAP_HATCHING;

const { paper, inks } = compareResult();
const areas = {
  paper: { ...paper!, floorDeltaE00: 1 },
  inks: [
    { ...inks[0], label: 1, floorDeltaE00: 0.2, inkPartDeltaE00: 2, inkPartLow: 0.9 },
    { ...inks[0], label: 2, floorDeltaE00: null, inkPartDeltaE00: null, inkPartLow: null },
  ],
};
const labels = Uint8Array.of(1, 2, 255, 0, 1, 255, 255, 1);
const sheet = Uint8Array.of(1, 1, 1, 1, 1, 1, 1, 1);
const draw = (difference: Float32Array, inkPart: Float32Array | null, on = sheet) =>
  comparisonPictures({
    areas,
    labels,
    difference,
    inkPart,
    sheet: on,
    before: pictureOfPlanes(planes, PLAIN, 150),
    after: planes,
    correctionAfter: PLAIN,
    dpi: 150,
  });
const raw = async (picture: Buffer) => [...(await sharp(picture).raw().toBuffer())];
const coloursOf = async (picture: Buffer) => {
  const colours = await raw(picture);
  return (cell: number) => String(colours.slice(3 * cell, 3 * cell + 3));
};

test("each cell is judged by the floor of its own ink, bare and unknown cells by the paper's; labels come out as they are", async () => {
  const pictures = await draw(Float32Array.of(0.5, 0.5, 0.5, 0.5, 0.1, 1.5, NaN, 12), null);
  expect([...(await sharp(pictures.inks).toColourspace("b-w").raw().toBuffer())]).toEqual([...labels]); // prettier-ignore
  const of = await coloursOf(pictures.difference);
  expect(tones(belowFloor)).not.toContain(of(0));
  for (const below of [1, 2, 3, 4]) expect(tones(belowFloor)).toContain(of(below));
  expect(tones(belowFloor)).not.toContain(of(5));
  expect(tones(notMeasured)).toContain(of(6));
  expect(of(7)).toBe(String(HEAT_MAP_COLOURS.beyondScale));
  // Half the light is code 188 of sRGB.
  for (const code of await raw(pictures.after)) expect(Math.abs(code - 188)).toBeLessThanOrEqual(1);
  const { width, height, density } = await sharp(pictures.before).metadata();
  expect([width, height, density]).toEqual([WIDTH, HEIGHT, 150]);
});

test("off the sheet and not measured are told apart", async () => {
  const on = Uint8Array.of(0, 1, 1, 1, 1, 1, 1, 1);
  const of = await coloursOf((await draw(new Float32Array(8).fill(NaN), null, on)).difference);
  expect(of(0)).toBe(String(HEAT_MAP_COLOURS.offSheet));
  expect(tones(notMeasured)).toContain(of(1));
});

test("the map of the ink part leaves bare paper out and claims only beyond what the ink's interval leaves open", async () => {
  const inkPart = Float32Array.of(1, 1.2, 3, 1, 1.2, 3, 3, 1.2);
  const { inkPart: picture } = await draw(new Float32Array(8).fill(3), inkPart);
  const of = await coloursOf(picture!);
  // Ink 1 leaves 1.1 open; so does a place of no one ink.
  for (const below of [0, 3]) expect(tones(belowFloor)).toContain(of(below));
  for (const above of [4, 7]) expect(tones(belowFloor)).not.toContain(of(above));
  for (const bare of [2, 5, 6]) expect(of(bare)).toBe(String(HEAT_MAP_COLOURS.barePaper));
  expect((await draw(new Float32Array(8), null)).inkPart).toBeNull();
});
