import { expect, test } from "vitest";
import type { Triple } from "../../src/numeric/triple.ts";
import type { LabImage } from "../../src/grid/labImage.ts";
import { lightestOf } from "../../src/regions/lightestOf.ts";
import { relateToWhite, unrelateToWhite } from "../../src/regions/relateToWhite.ts";
import { relativeToPaper } from "../../src/regions/relativeToPaper.ts";

function picture(colours: readonly Triple[]): LabImage {
  const plane = (c: number): Float32Array => Float32Array.from(colours, (lab) => lab[c]);
  return {
    width: colours.length,
    height: 1,
    L: plane(0),
    a: plane(1),
    b: plane(2),
    mmPerCell: 0.25,
    stepX: 1,
    stepY: 1,
  };
}

const PAPER: Triple = [76, 4, 20];
const COLOURS: readonly Triple[] = [PAPER, [50, 46, 24], [46, -12, -19], [71, 9, 56], [29, 1, 5]];

test("equals scaling XYZ by the white, and is undone", () => {
  const relative = relateToWhite(picture(COLOURS), PAPER);
  COLOURS.forEach((lab, i) => {
    const found: Triple = [relative.L[i], relative.a[i], relative.b[i]];
    // Single precision: 1e-5 of 100. All of these colours are above the linear toe of L*.
    relativeToPaper(lab, PAPER).forEach((value, c) => expect(found[c]).toBeCloseTo(value, 3));
    unrelateToWhite(found, PAPER).forEach((value, c) => expect(value).toBeCloseTo(lab[c], 3));
  });
});

test("the lightest part is the paper, not the glare on it nor the inks", () => {
  const cells: Triple[] = [
    ...Array.from({ length: 900 }, (): Triple => [50, 46, 24]),
    ...Array.from({ length: 95 }, (): Triple => PAPER),
    ...Array.from({ length: 5 }, (): Triple => [100, 0, 0]),
  ];
  const image = picture(cells);
  expect(lightestOf(image, new Uint8Array(cells.length).fill(1))).toEqual(PAPER);
  // Printed dark all over: differences are not blown up beyond those on a neutral L* 70.
  const masked = Uint8Array.from(cells, ([L]) => (L === 50 ? 1 : 0));
  expect(lightestOf(image, masked)).toEqual([70, 0, 0]);
});
