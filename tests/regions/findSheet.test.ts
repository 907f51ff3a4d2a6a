import { describe, expect, test } from "vitest";
import type { Triple } from "../../src/numeric/triple.ts";
import { findSheet } from "../../src/regions/findSheet.ts";
import type { LabImage } from "../../src/grid/labImage.ts";
import { smoothLab } from "../../src/regions/smoothLab.ts";
import type { LabelPicture, LabelPictureOptions } from "../support/labelPicture.ts";
import { labelPicture, STEP } from "../support/labelPicture.ts";
import { LABELLED_COVER } from "../support/labelledCover.ts";

/** Common area over total area of the mask and the true sheet. One cell all round is 0.7 % of the sheet. */
function overlap(mask: Uint8Array, truth: Uint8Array): number {
  let common = 0;
  let total = 0;
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] !== 0 && truth[i] !== 0) common++;
    if (mask[i] !== 0 || truth[i] !== 0) total++;
  }
  return common / total;
}

function draw(options: Partial<LabelPictureOptions>): LabelPicture {
  return labelPicture({ ...LABELLED_COVER, mmPerCell: 0.3, ...options });
}

function sheetOf({ image }: LabelPicture, exclude: Parameters<typeof findSheet>[1] = []) {
  return findSheet(smoothLab(image), exclude);
}

/** Art to the very edge on three sides: black, blue and yellow. */
const BLEEDING: LabelPictureOptions["patches"] = [
  { ink: "black", box: [0, 120, 130, 50] },
  { ink: "blue", box: [0, 0, 130, 60] },
  { ink: "yellow", box: [0, 60, 20, 60] },
];

const BEDS: readonly (readonly [string, Triple])[] = [
  ["white", [96, 0, -1]],
  ["grey", [60, 0, 0]],
  ["black", [8, 0, 0]],
];

describe.each(BEDS)("%s bed", (_, bed) => {
  test("straight, turned with a shadow, and with art that bleeds", () => {
    const straight = draw({ bed });
    const found = sheetOf(straight);
    expect(overlap(found.mask, straight.truth)).toBeGreaterThan(0.99);
    expect(found.bedLab?.map(Math.round).map((v) => v + 0)).toEqual(bed);
    expect(found.notes).toEqual([]);

    const turned = draw({ bed, angleDegrees: 3, shadow: 0.5 });
    // The shadow line may cost two cells on two sides.
    expect(overlap(sheetOf(turned).mask, turned.truth)).toBeGreaterThan(0.98);

    const bleeding = draw({ bed, patches: BLEEDING });
    expect(overlap(sheetOf(bleeding).mask, bleeding.truth)).toBeGreaterThan(0.985);
  });
});

test("a bed as light as the paper, 7 units from it", () => {
  for (const angleDegrees of [0, -3]) {
    const picture = draw({ bed: [85, 1, 8], angleDegrees });
    expect(overlap(sheetOf(picture).mask, picture.truth)).toBeGreaterThan(0.985);
  }
});

test("a lamp that falls off by 4 L* across the bed", () => {
  const picture = draw({ bed: [70, 0, 0] });
  const L = picture.image.L.map((value, i) => value - (4 * (i % picture.image.width)) / 500);
  const found = findSheet(smoothLab({ ...picture.image, L }), []);
  expect(overlap(found.mask, picture.truth)).toBeGreaterThan(0.985);
});

test("a sheet that fills the frame, or reaches beyond it, is not mistaken for bed: margin, black corner, black band", () => {
  const corner = { ink: "black", box: [0, 135, 60, 35] } as const;
  const band = { ink: "black", box: [0, 130, 130, 40] } as const;
  for (const border of [0, -3])
    for (const patches of [
      LABELLED_COVER.patches,
      [...LABELLED_COVER.patches, corner],
      [...LABELLED_COVER.patches, band],
    ]) {
      const found = sheetOf(draw({ border, patches }));
      expect(found.bedLab).toBeNull();
      expect(found.mask.every((m) => m === 1)).toBe(true);
      expect(found.notes).toEqual([
        "No scanner bed was seen: the whole frame is taken as the sheet.",
      ]);
    }
});

/** The picture without its left columns. */
function cutLeft({ image, truth }: LabelPicture, columns: number): [LabImage, Uint8Array] {
  const width = image.width - columns;
  const cut = <T extends Float32Array | Uint8Array>(plane: T, out: T): T => {
    for (let y = 0; y < image.height; y++)
      out.set(plane.subarray(y * image.width + columns, (y + 1) * image.width), y * width);
    return out;
  };
  const size = width * image.height;
  return [
    {
      ...image,
      width,
      L: cut(image.L, new Float32Array(size)),
      a: cut(image.a, new Float32Array(size)),
      b: cut(image.b, new Float32Array(size)),
    },
    cut(truth, new Uint8Array(size)),
  ];
}

test("a sheet cut off by the frame on one side is found and the side named", () => {
  const [image, truth] = cutLeft(draw({}), 100);
  const found = findSheet(smoothLab(image), []);
  expect(overlap(found.mask, truth)).toBeGreaterThan(0.99);
  expect(found.notes).toEqual(["The frame cuts the sheet off on the left side."]);
});

/** Paints a box of the frame, in cells. */
function paint(image: LabImage, box: readonly [number, number, number, number], lab: Triple): void {
  for (let y = box[1]; y < box[1] + box[3]; y++)
    for (let x = box[0]; x < box[0] + box[2]; x++) {
      const i = y * image.width + x;
      [image.L[i], image.a[i], image.b[i]] = lab;
    }
}

function pixels([x, y, w, h]: readonly [number, number, number, number]) {
  const X = (cell: number): number => cell * STEP - 0.5;
  return [
    [X(x), X(y)],
    [X(x + w), X(y)],
    [X(x + w), X(y + h)],
    [X(x), X(y + h)],
  ] as const;
}

test("a card on the bed stays outside with a margin, and tells a beige bed around bleeding art", () => {
  const picture = draw({ border: 45, patches: BLEEDING, bed: [86, 1, 9] });
  const box = [20, 150, 100, 200] as const;
  paint(picture.image, box, [30, 10, -40]);
  const found = sheetOf(picture, [pixels(box)]);
  expect(overlap(found.mask, picture.truth)).toBeGreaterThan(0.985);
  expect(found.box?.[0]).toBeGreaterThan(140);
});

test("a card on a sheet that fills the frame is cut out of it, 2 mm wider", () => {
  const picture = draw({ border: 0 });
  const box = [200, 100, 100, 80] as const;
  paint(picture.image, box, [30, 10, -40]);
  const { mask } = sheetOf(picture, [pixels(box)]);
  const at = (x: number, y: number): number => mask[y * picture.image.width + x];
  expect(at(250, 140)).toBe(0);
  expect(at(195, 140)).toBe(0); // 1.5 mm beside it
  expect(at(190, 140)).toBe(1); // 3 mm
});

test("dust and a ruler on the bed are no sheet; holes in the sheet belong to it", () => {
  const picture = draw({ bed: [8, 0, 0], border: 25 });
  paint(picture.image, [10, 20, 12, 500], [80, 0, 40]);
  paint(picture.image, [40, 30, 3, 3], [90, 0, 0]);
  const hole = picture.cellAt(40, 150);
  const { width } = picture.image;
  paint(picture.image, [hole % width, Math.floor(hole / width), 8, 8], [8, 0, 0]);
  const { mask } = sheetOf(picture);
  expect(overlap(mask, picture.truth)).toBeGreaterThan(0.99);
  expect(mask[hole + 4 * width + 4]).toBe(1);
});

test("cells without data are no sheet", () => {
  const picture = draw({ border: 0 });
  paint(picture.image, [0, 0, 40, picture.image.height], [NaN, NaN, NaN]);
  const { mask, box } = sheetOf(picture);
  expect(mask[100 * picture.image.width + 20]).toBe(0);
  expect(box?.[0]).toBe(40);
  const nothing = new Float32Array(picture.image.L.length).fill(NaN);
  expect(sheetOf({ ...picture, image: { ...picture.image, L: nothing } }).box).toBeNull();
});
