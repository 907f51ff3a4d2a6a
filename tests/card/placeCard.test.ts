import { beforeAll, describe, expect, test } from "vitest";
import { CARDS } from "../../src/card/cards.ts";
import { MATCH_ACCEPTED, matchResidual } from "../../src/card/matchResidual.ts";
import type { Corners } from "../../src/card/parseCorners.ts";
import { placeCard } from "../../src/card/placeCard.ts";
import type { LastrinseError } from "../../src/errors.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { RenderedChart } from "../support/renderChart.ts";
import { linearOfLab, phoneTone, renderChart } from "../support/renderChart.ts";

const [card] = CARDS;
const scene = {
  card,
  width: 900,
  height: 700,
  pitch: 90,
  turnDegrees: 25,
  tilt: [0.25, 0.1],
  gains: [0.9, 0.8, 1.1],
  tone: phoneTone,
} as const;
let chart: RenderedChart;
beforeAll(async () => {
  chart = await renderChart(scene);
});

const inOrder = (...order: number[]): Corners =>
  order.map((i) => chart.corners[i]) as unknown as Corners;

function refusal(corners: Corners, { raster } = chart): LastrinseError {
  try {
    placeCard(raster, card, corners, "photo.jpg");
  } catch (error) {
    return error as LastrinseError;
  }
  throw new Error("was not refused");
}

test("true corners give true centres and a residual that is accepted", () => {
  const placed = placeCard(chart.raster, card, chart.corners);
  expect(placed.matchResidual).toBeLessThan(MATCH_ACCEPTED);
  for (const [i, [x, y]] of placed.centres.entries()) {
    // The rendered map is projective too: only rounding is left.
    expect(Math.hypot(x - chart.centres[i][0], y - chart.centres[i][1])).toBeLessThan(1e-6);
  }
});

describe("other orders of the right points", () => {
  test.each([
    [1, 2, 3, 0],
    [2, 3, 0, 1],
    [3, 0, 1, 2],
  ])("turned: %i %i %i %i", (...order) => {
    const error = refusal(inOrder(...order));
    expect(error.code).toBe("card-not-found");
    expect(error.message).toContain("another order");
    expect(error.remedy).toContain("first of row 1");
    expect(error.input).toBe("photo.jpg");
  });

  test.each([
    [1, 0, 3, 2],
    [0, 3, 2, 1],
    [3, 2, 1, 0],
    [2, 1, 0, 3],
  ])("backwards: %i %i %i %i", (...order) => {
    const [right] = inOrder(0);
    expect(refusal(inOrder(...order)).message).toContain(`the order is "${right.join(",")} `);
  });

  test("crosswise", () => {
    expect(refusal(inOrder(0, 2, 1, 3)).message).toContain("convex");
  });
});

test("a mirrored photo is refused in whatever order its corners come", async () => {
  const mirrored = await renderChart({ ...scene, mirrored: true });
  const attempts = [[0, 1, 2, 3], [1, 0, 3, 2], [2, 3, 0, 1], [3, 2, 1, 0]]; // prettier-ignore
  for (const order of attempts) {
    const corners = order.map((i) => mirrored.corners[i]) as unknown as Corners;
    const error = refusal(corners, mirrored);
    expect(error.code).toBe("card-not-found");
    expect(error.message).toContain("mirror image");
  }
});

test.each<[string, Corners, string]>([
  ["outside the frame", [[10, 10], [950, 10], [900, 600], [10, 600]], "inside the picture"], // prettier-ignore
  ["not a number", [[NaN, 10], [90, 10], [90, 60], [10, 60]], "inside the picture"], // prettier-ignore
  ["one point four times", [[50, 50], [50, 50], [50, 50], [50, 50]], "convex"], // prettier-ignore
  ["no card there", [[5, 5], [85, 5], [85, 55], [5, 55]], "do not match"], // prettier-ignore
  ["too small to hold pixels", [[5, 5], [7, 5], [7, 6], [5, 6]], "too close together"], // prettier-ignore
])("refused: %s", (_, corners, words) => {
  const error = refusal(corners);
  expect(error.code).toBe("card-not-found");
  expect(error.message).toContain(words);
  expect(error.remedy.length).toBeGreaterThan(20);
});

describe("match residual", () => {
  // Clipped like a file: cyan has no red in sRGB.
  const clip = (value: number): number => Math.max(0, value);
  const ideal = card.patches.map(({ lab }): Triple => {
    const [r, g, b] = linearOfLab(lab);
    return [clip(r), clip(g), clip(b)];
  });

  test("exposure and white balance of encoded values hardly count", () => {
    const plain = matchResidual(ideal, card);
    const cast = matchResidual(
      ideal.map(([r, g, b]) => [0.5 * r, 0.7 * g, 0.4 * b] as const),
      card,
    );
    // Gains on linear light are gains on the encoded value but for the offset of the curve, which moves the darkest patches.
    expect(Math.abs(cast - plain)).toBeLessThan(2);
    expect(plain).toBeLessThan(8);
  });

  test("mirrored and turned orders of the colours are not accepted", () => {
    const at = (row: number, column: number) => ideal[6 * row + column];
    const orders = {
      "left and right swapped": ideal.map((_, i) => at(Math.floor(i / 6), 5 - (i % 6))),
      "top and bottom swapped": ideal.map((_, i) => at(3 - Math.floor(i / 6), i % 6)),
      "turned half round": ideal.map((_, i) => ideal[23 - i]),
      "one row off": ideal.map((_, i) => ideal[(i + 6) % 24]),
      "one column off": ideal.map((_, i) => ideal[(i + 1) % 24]),
    };
    for (const [name, colours] of Object.entries(orders))
      expect(matchResidual(colours, card), name).toBeGreaterThan(24);
  });

  test("one colour everywhere matches nothing", () => {
    expect(matchResidual(ideal.map(() => [0.4, 0.4, 0.4]), card)).toBeGreaterThan(24); // prettier-ignore
  });

  test("a missing patch gives no residual", () => {
    expect(matchResidual(ideal.with(3, [NaN, NaN, NaN]), card)).toBeNaN();
  });

  test("wrong number of colours", () => {
    expect(() => matchResidual(ideal.slice(1), card)).toThrow(RangeError);
  });
});
