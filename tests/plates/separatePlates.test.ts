import { describe, expect, test } from "vitest";
import { PLATE_SOLIDS } from "../../calibration/plateSolids.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import type { DrawnCells } from "../../src/plates/drawnCells.ts";
import { regressFilm } from "../../src/plates/filmRegression.ts";
import { absorptionsOfSolid, inkLawOnPaper } from "../../src/plates/inkLaw.ts";
import { cellsAt, cellsOfPlanes, type PlateCells } from "../../src/plates/plateCells.ts";
import { primariesOf } from "../../src/plates/primaries.ts";
import { cellModel } from "../../src/plates/cellModel.ts";
import { separatePlates, USUAL_INKS } from "../../src/plates/separatePlates.ts";

const PAPER = [0.7, 0.65, 0.55] as const;
const law = inkLawOnPaper(PAPER);
const inks = PLATE_SOLIDS.map(({ atUsual }) => absorptionsOfSolid(law, atUsual));

/** Beta(a, b) by Johnk's method. */
function beta(random: { uniform(): number }, a: number, b: number): number {
  for (;;) {
    const x = random.uniform() ** (1 / a);
    const y = random.uniform() ** (1 / b);
    if (x + y <= 1 && x + y > 0) return x / (x + y);
  }
}

/** A sheet printed by the law itself on a grid of 100 x 100, without noise: coverages by a beta law, some of it bare. */
function sheet(options: {
  readonly film: number;
  readonly plates: number;
  readonly losses: readonly number[];
  readonly paperChange: readonly [number, number, number];
  readonly seed?: number;
  readonly bare?: number;
}): { readonly cells: PlateCells; readonly drawn: DrawnCells } {
  const { film, plates, losses, paperChange, seed = 1, bare = 800 } = options;
  const n = 10_000;
  const random = seededRandom(seed);
  const k = plates;
  const press = inks.slice(0, k);
  const c = new Float64Array(n * k);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < k; j++) c[i * k + j] = i < bare ? 0 : beta(random, 0.7, 0.9);
  const none = new Array<number>(k).fill(0);
  const model = cellModel(
    primariesOf(law, press, film, none),
    primariesOf(law, press, film, losses),
    [c, c],
  );
  const g = 0.9 * (1 - film);
  const before = new Float64Array(3 * n);
  const after = new Float64Array(3 * n);
  const change = new Float64Array(3 * n);
  const p = new Float64Array(3 * n);
  for (let row = 0; row < 3 * n; row++) {
    before[row] = model.logT[row] + Math.log(PAPER[row % 3]);
    p[row] = paperChange[row % 3];
    change[row] = model.change[row] + p[row] * (1 - g * (1 - model.through[row]));
    after[row] = before[row] + change[row];
  }
  const places = Int32Array.from({ length: n }, (_, i) => i);
  const spread = new Float64Array(n);
  const cells = cellsAt({ width: 100, height: 100, places, before, after, spread });
  return { cells, drawn: { logT: model.logT, change, before, paperChange: p, spread } };
}

describe("what the law prints comes back", () => {
  // Figures of the same trial by another implementation with other numbers: each to 0.003.
  test.each([
    [0, [0.024, 0.119, 0.052]],
    [0.5, [0.022, 0.119, 0.051]],
  ] as const)("film %d", (film, expected) => {
    const { drawn } = sheet({
      film,
      plates: 3,
      losses: [0.02, 0.12, 0.05],
      paperChange: [0.03, 0.045, 0.09],
    });
    const from = 800;
    const every = Int32Array.from({ length: 4000 }, (_, i) => Math.floor(i * 2.5));
    expect(every[4000 - 1]).toBeGreaterThan(from);
    const pick = (values: Float64Array): Float64Array =>
      Float64Array.from({ length: 12_000 }, (_, i) => values[3 * every[(i / 3) | 0] + (i % 3)]);
    const fit = regressFilm(
      film,
      {
        logT: pick(drawn.logT),
        change: pick(drawn.change),
        before: pick(drawn.before),
        paperChange: pick(drawn.paperChange),
        spread: new Float64Array(4000),
      },
      { law, absorptions: inks.slice(0, 3), black: [false, false, false] },
      {
        offsetCovariance: Float64Array.from({ length: 9 }, (_, i) =>
          i % 4 === 0 ? (0.01 + 0.2 * [0.03, 0.045, 0.09][i / 4]) ** 2 : 0,
        ),
        driftSd: 0.003,
        stir: 1,
      },
      null,
    );
    fit.losses.forEach((f, i) => expect(Math.abs(f - expected[i])).toBeLessThan(0.003));
  });
});

describe("whole separation", () => {
  test("the same sheet twice: no loss at all, and the same bytes on every run", () => {
    const { cells } = sheet({ film: 0.5, plates: 4, losses: [0, 0, 0, 0], paperChange: [0, 0, 0] });
    const run = () => separatePlates(cells);
    const { plates } = run();
    for (const plate of plates ?? []) {
      expect(plate.lost).toBe(0);
      expect(plate.verdict).toBe("none-shown");
      expect(plate.high).toBeLessThanOrEqual(plate.id === "black" ? 0.12 : 0.03);
    }
    expect(JSON.stringify(run())).toBe(JSON.stringify(run()));
  });

  test("a plate that lost is named, mapped and weighed; the others are not", () => {
    const { cells } = sheet({
      film: 0,
      plates: 4,
      losses: [0, 0.2, 0, 0],
      paperChange: [0.05, 0.06, 0.08],
    });
    const { plates, map, model } = separatePlates(cells);
    const [yellow, red, blue, black] = plates ?? [];
    expect(red.verdict).toBe("lost");
    expect(red.low).toBeLessThan(0.2);
    expect(red.high).toBeGreaterThan(0.2);
    for (const plate of [yellow, blue, black]) expect(plate.verdict).not.toBe("lost");
    expect(model.paper).toBe("bare");
    expect(red.deltaE00[0]).toBeGreaterThan(0.3);
    expect(red.mass.lost[0]).toBeCloseTo(red.lost * red.mass.printed[0], 9);
    expect(red.worst?.boxMm.width).toBe(20);
    expect(map?.plates[1].filter((tile) => tile !== null).length).toBeGreaterThan(15);
    expect(map?.plates[0].every((tile) => tile === null)).toBe(true);
  });

  test("a sheet of two inks: what it has not is not claimed", () => {
    const { cells } = sheet({
      film: 0.25,
      plates: 2,
      losses: [0, 0.2],
      paperChange: [0.05, 0.06, 0.08],
    });
    const { plates } = separatePlates(cells, { map: false });
    expect(plates?.filter(({ verdict }) => verdict === "lost").map(({ id }) => id)).not.toContain("blue"); // prettier-ignore
  });

  test.each([
    ["two", 2, [0, 0.2]],
    ["one", 1, [0.2]],
  ] as const)(
    "a press of %s, told so: nothing is said of plates it has not, and the loss is named",
    (_, k, losses) => {
      const { cells } = sheet({ film: 0, plates: k, losses, paperChange: [0.05, 0.06, 0.08] });
      const { plates } = separatePlates(cells, { inks: USUAL_INKS.slice(0, k) });
      expect(plates?.map(({ id }) => id)).toEqual(["yellow", "red"].slice(0, k));
      const last = plates?.at(-1);
      expect(last?.verdict).toBe("lost");
      expect(last?.low).toBeLessThanOrEqual(0.2);
      expect(last?.high).toBeGreaterThanOrEqual(0.2);
      for (const plate of plates?.slice(0, -1) ?? []) expect(plate.verdict).not.toBe("lost");
    },
  );

  test("one plate alone can be asked for, and picked", () => {
    const { cells } = sheet({ film: 0, plates: 1, losses: [0.3], paperChange: [0.05, 0.06, 0.08] });
    const yellow = USUAL_INKS[0];
    const { plates } = separatePlates(cells, { inks: [yellow], map: false });
    expect(plates).toHaveLength(1);
    const picked = plates?.[0].solidLab ?? null;
    const again = separatePlates(cells, { inks: [{ ...yellow, picked }], map: false }).plates?.[0];
    expect(again?.source).toBe("picked");
    // The picked solid is the usual one itself: only rounding of the two ways apart.
    expect(again?.lost).toBeCloseTo(plates?.[0].lost ?? NaN, 2);
  });

  test("a stain in the colour of a plate is told", () => {
    const { cells } = sheet({
      film: 0,
      plates: 4,
      losses: [0, 0.1, 0, 0],
      paperChange: [-0.012, -0.03, -0.034],
    });
    expect(separatePlates(cells, { map: false }).warnings.map(({ code }) => code)).toContain(
      "redeposited",
    );
  });
});

describe("too little print is refused, and nothing crashes", () => {
  const grid = (width: number, height: number, value: (i: number) => number): PlateCells => {
    const plane = (scale: number): Float32Array =>
      Float32Array.from({ length: width * height }, (_, i) => scale * value(i));
    const planes = [plane(0.96), plane(1), plane(0.82)] as const;
    return cellsOfPlanes({ width, height, before: planes, after: planes });
  };

  test.each([
    ["no cell known", grid(170, 250, () => NaN)],
    ["a strip too small", grid(16, 16, () => 0.5)],
    ["a grid of no cells", grid(0, 0, () => 0.5)],
    ["a blank sheet", grid(170, 250, () => 0.7)],
    ["infinite light", grid(170, 250, () => Infinity)],
  ])("%s", (_, cells) => {
    const { plates, model, map } = separatePlates(cells);
    expect(plates).toBeNull();
    expect(map).toBeNull();
    expect(model.refused).toBe("too-little-print");
  });

  test("a sheet all dark, and one with holes, give finite figures", () => {
    const random = seededRandom(3);
    for (const cells of [
      grid(170, 250, () => 0),
      grid(170, 250, () => 0.02 + 0.6 * random.uniform()),
      grid(170, 250, (i) => (i % 7 === 0 ? NaN : 0.3)),
    ])
      for (const plate of separatePlates(cells).plates ?? [])
        expect([plate.lost, plate.low, plate.high, ...plate.deltaE00].every(Number.isFinite)).toBe(true); // prettier-ignore
  });

  test("inks without a solid, none, or too many are refused in words", () => {
    const { cells } = sheet({ film: 0, plates: 4, losses: [0, 0, 0, 0], paperChange: [0, 0, 0] });
    const spot = { ...USUAL_INKS[0], id: "green", usual: null };
    expect(() => separatePlates(cells, { inks: [spot] })).toThrow(/picked solid of the ink green/);
    expect(() => separatePlates(cells, { inks: [] })).toThrow(RangeError);
    expect(() => separatePlates(cells, { inks: [...USUAL_INKS, spot] })).toThrow(RangeError);
  });
});
