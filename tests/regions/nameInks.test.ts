import { expect, test } from "vitest";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";
import { nameInks } from "../../src/regions/nameInks.ts";

/** Linear sRGB of browned paper, and densities of solid inks in those bands. Other bands than the program looks in. */
const PAPER: Triple = [0.72, 0.6, 0.42];
const INKS = {
  yellow: [0.02, 0.1, 0.75],
  red: [0.06, 0.75, 0.6],
  blue: [0.75, 0.38, 0.1],
  black: [1.1, 1.1, 1.05],
} satisfies Record<string, Triple>;

type Coverages = Partial<Record<keyof typeof INKS, number>>;

/** Screens over one another: each lets pass 1 - c + c 10^-D (Murray & Davies), together the product (Demichel). */
function print(coverages: Coverages): Triple {
  const linear = PAPER.map((paper, band) =>
    Object.entries(coverages).reduce(
      (light, [ink, c]) => light * (1 - c + c * 10 ** -INKS[ink as keyof typeof INKS][band]),
      paper,
    ),
  );
  return xyzD50ToLab(multiply3Vector(SRGB_TO_XYZ_D50, linear as unknown as Triple));
}

const paper = print({});

function named(...printed: Coverages[]): string[] {
  return nameInks(printed.map(print), paper).map(({ id, kind }) => `${id} ${kind}`);
}

test("solids, overprints, black and tints of a three-colour cover", () => {
  expect(
    named(
      { red: 1 },
      { yellow: 1 },
      { blue: 1 },
      { yellow: 1, red: 0.45 },
      { yellow: 1, blue: 0.6 },
      { red: 1, blue: 1 },
      { black: 1 },
      { blue: 0.35 },
      { red: 0.3 },
      { black: 0.6 },
    ),
  ).toEqual([
    "red ink",
    "yellow ink",
    "blue ink",
    "orange overprint",
    "green overprint",
    "violet overprint",
    "black black",
    "light-blue ink",
    "pink ink",
    "grey ink",
  ]);
});

test("the order of the colours does not decide what is an overprint", () => {
  expect(named({ yellow: 1, red: 0.5 }, { yellow: 1 }, { red: 1 })).toEqual([
    "orange overprint",
    "yellow ink",
    "red ink",
  ]);
});

test("without its parts in print an orange or a green is an ink of its own", () => {
  expect(named({ yellow: 1, red: 0.45 }, { blue: 1 })).toEqual(["orange ink", "blue ink"]);
  expect(named({ yellow: 1, blue: 0.6 }, { red: 1 })).toEqual(["green ink", "red ink"]);
});

test("an ink shaded with black is an overprint, a tint of one ink is not", () => {
  expect(named({ red: 1 }, { black: 1 }, { red: 1, black: 0.4 }, { red: 0.6 })).toEqual([
    "red ink",
    "black black",
    "dark-red overprint",
    "pink ink",
  ]);
});

test("ids are unique: shade first, then numbers", () => {
  const red: Triple = [50, 50, 30];
  const ids = (colours: Triple[]): string[] => nameInks(colours, null).map(({ id }) => id);
  expect(ids([red, [36, 45, 28], [62, 48, 30], [51, 40, 28], [49, 40, 20]])).toEqual([
    "red",
    "dark-red",
    "light-red",
    "red-2",
    "red-3",
  ]);
  // A light blue of its own keeps its word although a lighter blue comes first.
  expect(
    ids([
      [45, -5, -40],
      [60, -5, -40],
      [85, -5, -15],
    ]),
  ).toEqual(["blue", "blue-2", "light-blue"]);
});

test("without paper only hues decide, and nothing is lost", () => {
  expect(
    nameInks(
      [
        [80, 0, 60],
        [50, 55, 30],
        [65, 35, 50],
      ],
      null,
    ),
  ).toEqual([
    { id: "yellow", kind: "ink" },
    { id: "red", kind: "ink" },
    { id: "orange", kind: "overprint" },
  ]);
  expect(nameInks([], null)).toEqual([]);
});
