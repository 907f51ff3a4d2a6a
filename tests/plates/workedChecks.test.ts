import { describe, expect, test } from "vitest";
import { PLATE_SOLIDS } from "../../calibration/plateSolids.ts";
import { cellModel } from "../../src/plates/cellModel.ts";
import { LEAST_BLACK, MOST_BLACK, solveCoverages } from "../../src/plates/coverages.ts";
import { filmWeights } from "../../src/plates/filmWeights.ts";
import { absorptionsOfSolid, inkLawOnPaper, logTransmission } from "../../src/plates/inkLaw.ts";
import { mixtureInterval } from "../../src/plates/mixtureInterval.ts";
import { mixtureQuantile } from "../../src/plates/mixtureQuantile.ts";
import { plateVerdict } from "../../src/plates/plateVerdict.ts";
import { type Primaries, primariesOf, YULE_NIELSEN } from "../../src/plates/primaries.ts";
import { bandsOfXyz, SPECTRAL_BAND_WEIGHTS, xyzOfBands } from "../../src/print/plateBands.ts";
import { usualSolid } from "../../src/plates/usualSolids.ts";

/** Figures worked once by another implementation, to the digits given: the tolerance is one unit of the last. */
function expectPrinted(values: ArrayLike<number>, printed: string): void {
  const words = printed.split(" ");
  expect(values.length).toBe(words.length);
  words.forEach((word, i) => {
    const unit = 10 ** -(word.split(".")[1] ?? "").length;
    expect(Math.abs(values[i] - Number(word)), `${values[i]} for ${word}`).toBeLessThan(1.01 * unit); // prettier-ignore
  });
}

const law = inkLawOnPaper([0.7, 0.65, 0.55]);
const inks = PLATE_SOLIDS.map(({ atUsual }) => absorptionsOfSolid(law, atUsual));
const BANDS = [0, 1, 2];
const NONE = [0, 0, 0, 0];

const overprint = ({ Q, count }: Primaries, plates: number): number[] =>
  BANDS.map((c) => Q[c * count + plates] ** YULE_NIELSEN);

function cellAt(film: number, c: readonly number[], losses: readonly number[] = NONE) {
  const ends = Float64Array.from(c);
  return cellModel(primariesOf(law, inks, film, NONE), primariesOf(law, inks, film, losses), [
    ends,
    ends,
  ]);
}
const answer = (film: number, c: readonly number[], plate: number): number[] => {
  const { response } = cellAt(film, c);
  return BANDS.map((band) => response[4 * band + plate]);
};

test("bands of white are 1 and come back from XYZ", () => {
  bandsOfXyz([0.96422, 1, 0.82521]).forEach((band) => expect(band).toBeCloseTo(1, 4));
  for (const c of BANDS)
    expect(SPECTRAL_BAND_WEIGHTS.subarray(31 * c, 31 * c + 31).reduce((a, b) => a + b)).toBeCloseTo(1, 4); // prettier-ignore
  xyzOfBands(bandsOfXyz([0.3, 0.2, 0.1])).forEach((v, i) => expect(v).toBeCloseTo([0.3, 0.2, 0.1][i], 12)); // prettier-ignore
});

test("paper and absorptions of the usual solids", () => {
  expectPrinted([law.a, law.b, ...law.paper], "0.0256 0.2116 0.7028 0.6455 0.5515");
  expectPrinted(inks[0], "0.012 0.044 4.339");
  expectPrinted(inks[1], "0.001 5.101 3.860");
  expectPrinted(inks[2], "7.256 1.005 0.187");
  expectPrinted(inks[3], "7.995 9.348 10.587");
  // The long band of red lies at the floor: its solid is met only nearly.
  expectPrinted(logTransmission(law, inks[1]).map(Math.exp), "0.5387 0.2222 0.1798");
});

test("solids of darker and paler sheets; where the darkness is not told, those of a usual one", () => {
  const solid = (i: number, value: number, told = true): readonly number[] =>
    usualSolid(PLATE_SOLIDS[i], { value, told });
  expectPrinted(solid(1, 4.2), "0.476 0.136 0.131");
  expectPrinted(solid(2, 4.2), "0.089 0.303 0.595");
  expectPrinted(solid(3, 4.2), "0.024 0.024 0.026");
  expectPrinted(solid(1, 2.1), "0.587 0.273 0.208");
  expect(solid(1, 4.2, false)).toEqual([0.55, 0.22, 0.18]);
});

describe.each([
  {
    film: 0,
    yellowRed: "0.5226 0.2075 0.1192",
    redBlue: "0.0921 0.1114 0.1588",
    red: "0.2312 0.5476 0.7671",
    blue: "0.6501 0.4957 0.2683",
    m: "-0.5851 -0.7974 -1.0158",
    G: "0.0684 0.1060 0.1261",
    solid: "0.0242 0.0575 0.0799",
    tint: "0.0095 0.0149 0.0185",
  },
  {
    film: 0.5,
    yellowRed: "0.5117 0.1884 0.0891",
    redBlue: "0.0877 0.0931 0.1352",
    red: "0.4250 1.0261 1.2419",
    blue: "1.2577 0.7729 0.3573",
    m: "-0.5921 -0.8165 -1.0506",
    G: "0.1277 0.1967 0.2120",
    solid: "0.0430 0.1039 0.1258",
    tint: "0.0170 0.0272 0.0295",
  },
  {
    film: 1,
    yellowRed: "0.5010 0.1711 0.0665",
    redBlue: "0.0835 0.0778 0.1151",
    red: "0.6188 1.5048 1.7169",
    blue: "1.8656 1.0502 0.4464",
    m: "-0.5978 -0.8319 -1.0763",
    G: "0.1856 0.2791 0.2810",
    solid: "0.0619 0.1504 0.1716",
    tint: "0.0245 0.0398 0.0408",
  },
])("film $film", ({ film, yellowRed, redBlue, red, blue, m, G, solid, tint }) => {
  test("overprints, and what a loss does to solids and to a cell of four", () => {
    const primaries = primariesOf(law, inks, film, NONE);
    expectPrinted(overprint(primaries, 0b0011), yellowRed);
    expectPrinted(overprint(primaries, 0b0110), redBlue);
    expectPrinted(answer(film, [0, 1, 0, 0], 1), red);
    expectPrinted(answer(film, [0, 0, 1, 0], 2), blue);
    const c = [0.5, 0.4, 0.2, 0.1];
    expectPrinted(cellAt(film, c).logT, m);
    expectPrinted(answer(film, c, 1), G);
    expectPrinted(cellAt(film, [0, 1, 0, 0], [0, 0.1, 0, 0]).change, solid);
    expectPrinted(cellAt(film, [0, 0.5, 0, 0], [0, 0.1, 0, 0]).change, tint);
  });
});

test("how much of the paper's change shows through ink", () => {
  const through = (c: readonly number[]): Float64Array => cellAt(0, c).through;
  expectPrinted(through([1, 0, 0, 0]), "0.785 0.608 0.314");
  expectPrinted(through([0, 1, 0, 0]), "0.436 0.179 0.130");
  expectPrinted(through([0, 0, 1, 0]), "0.568 0.453 0.676");
  expectPrinted(through([0, 0, 0, 1]), "0.039 0.044 0.055");
  expectPrinted(through([0.5, 0.4, 0.2, 0.1]), "0.7052 0.6330 0.5961");
  through(NONE).forEach((share) => expect(share).toBeCloseTo(1, 12));
});

test("coverages with most and with least black", () => {
  const primaries = primariesOf(law, inks, 0.25, NONE);
  const solve = ({ colour, black }: { colour: number; black: number }): Float64Array => {
    const c = new Float64Array(4).fill(0.25);
    solveCoverages(primaries, Float64Array.of(-0.9, -1.1, -1.5), [colour, colour, colour, black], c, 25); // prettier-ignore
    return c;
  };
  expectPrinted(solve(MOST_BLACK), "0.709 0.183 0 0.503");
  expectPrinted(solve(LEAST_BLACK), "0.878 0.475 0.463 0");
});

test("weights of the films, and the loss over them together", () => {
  const darkness = { value: 3.4, told: true };
  const weights = filmWeights(darkness, [9, 4, 1.5, 0.5, 1]);
  expectPrinted(weights, "0.022 0.228 0.471 0.246 0.032");
  const losses = [0.2, 0.15, 0.12, 0.1, 0.08];
  const sds = [0.04, 0.03, 0.025, 0.02, 0.02];
  const films = losses.map((loss, i) => ({
    film: i / 4,
    weight: weights[i],
    loss,
    raw: loss,
    sd: sds[i],
  }));
  const { lost, low, high } = mixtureInterval(films, 1, false);
  const quantile = (share: number): number => mixtureQuantile(losses, sds, weights, share);
  expectPrinted([lost, quantile(0.03), quantile(0.97)], "0.1224 0.0673 0.1934");
  // The law itself may be off.
  expect(low).toBeLessThan(quantile(0.03));
  expect(high).toBeGreaterThan(quantile(0.97));
  // Black is less sure.
  expect(mixtureInterval(films, 1, true).high).toBeGreaterThan(high + 0.02);
});

test("verdicts", () => {
  expect(plateVerdict({ lost: 0.1, low: 0.03, high: 0.2 }, 0.05)).toBe("absent");
  expect(plateVerdict({ lost: 0.1, low: 0.03, high: 0.2 }, 0.5)).toBe("lost");
  expect(plateVerdict({ lost: 0.06, low: 0, high: 0.11 }, 0.5)).toBe("uncertain");
  expect(plateVerdict({ lost: 0.01, low: 0, high: 0.21 }, 0.5)).toBe("uncertain");
  expect(plateVerdict({ lost: 0.01, low: 0, high: 0.04 }, 0.5)).toBe("none-shown");
});
