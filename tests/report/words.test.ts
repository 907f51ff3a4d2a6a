import { expect, test } from "vitest";
import { dayOf, timeOf } from "../../src/report/dates.ts";
import { figure, percentRange, signed, withRange } from "../../src/report/figures.ts";
import { readingWords } from "../../src/report/readingScale.ts";
import { showControls } from "../../src/report/showControls.ts";
import { pagePictures } from "../../src/report/pagePictures.ts";
import { sharp } from "../../src/raster/sharp.ts";
import { encodePng } from "../../src/picture/encodePng.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { comparisonSummary } from "../../src/report/comparisonPart.tsx";
import { compareResult } from "../support/treatmentView.ts";

test("figures: true minus, no signed zero, words where nothing was measured", () => {
  expect(figure(-1.234)).toBe("\u22121.23");
  expect(figure(-0.001)).toBe("0.00");
  expect(figure(null)).toBe("not measured");
  expect(figure(NaN)).toBe("not measured");
  expect(signed(0.5, 1)).toBe("+0.5");
  expect(signed(-0.5, 1)).toBe("\u22120.5");
  expect(signed(0.001, 1)).toBe("0.0");
  expect(withRange(1, 0.5, null)).toBe("1.00");
  expect(percentRange([0.05, 0.3])).toBe("5 to 30\u00a0%");
});

test("the reading scale: never a word under the floor", () => {
  // Steps of the reading scale: floor, 1, 2, 4 dE00.
  expect(readingWords(0.3, 0.4)).toBe("no change shown");
  expect(readingWords(1.5, 1.8)).toBe("no change shown");
  expect(readingWords(0.9, 0.4)).toBe("measured, not visible");
  expect(readingWords(1.5, 0.4)).toBe("visible side by side");
  expect(readingWords(3, 0.4)).toBe("visible");
  expect(readingWords(4.1, 0.4)).toBe("strong");
  expect(readingWords(null, 0.4)).toBe("not measured");
});

test("dates are told by the clock that wrote them", () => {
  expect(dayOf("2026-03-01T00:30:00+13:00")).toBe("1 March 2026");
  expect(timeOf("2026-03-01T00:30:00+13:00")).toBe("2026-03-01 00:30 (UTC+13:00)");
  expect(timeOf("2026-03-01T00:30:00Z")).toBe("2026-03-01 00:30 (UTC)");
});

test("control characters become signs; ordinary white space stays", () => {
  expect(showControls("a\u0000b\u202Ec\n\td")).toBe("a[U+0000]b[U+202E]c\n\td");
});

test("pictures of many sides are reduced until they fit", async () => {
  // Noise is what compresses worst.
  const random = seededRandom(5);
  const [width, height] = [900, 1200];
  const noise = await encodePng({
    width,
    height,
    channels: 3,
    data: Uint8Array.from({ length: 3 * width * height }, () => Math.floor(256 * random.uniform())),
  });
  const inks = await encodePng({
    width,
    height,
    channels: 1,
    data: new Uint8Array(width * height),
  });
  const one = {
    result: compareResult(),
    pictures: { before: noise, after: noise, difference: noise, inkPart: noise, inks },
  };
  const budget = 2_000_000;
  const [shown] = await pagePictures([one], budget);
  const { before, after, difference, inkPart } = shown;
  const size = [before, after, difference, inkPart ?? ""].join("").length;
  expect(size).toBeLessThan(budget);
  const bytes = Buffer.from(before.split(",")[1], "base64");
  const { width: shownWidth = 0, chromaSubsampling } = await sharp(bytes).metadata();
  expect(shownWidth).toBeLessThan(width);
  expect(shownWidth).toBeGreaterThan(200);
  expect(chromaSubsampling).toBe("4:4:4");
});

test("scans that may be the wrong way round are told of before anything that rests on them", () => {
  const right = compareResult();
  const first = "The scans may be the wrong way round: check which one is from before the washing.";
  expect(comparisonSummary(right)).not.toContain(first);
  const swapped = { ...right, warnings: [{ code: "order-swapped" as const, message: "Swapped?" }] };
  expect(comparisonSummary(swapped).startsWith(first)).toBe(true);
});
