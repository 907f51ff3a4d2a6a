import { describe, expect, test } from "vitest";
import { orderWarnings } from "../../src/compare/orderWarnings.ts";
import type { InkReport, PaperReport } from "../../src/results/compareResult.ts";
import type { ScanInfo } from "../../src/raster/raster.ts";
import { compareResult } from "../support/treatmentView.ts";

const info = (file: string, takenAt: string | null): ScanInfo => ({
  file: `scans/${file}`,
  sha256: "ab".repeat(32),
  widthPixels: 10,
  heightPixels: 10,
  dpi: 300,
  bitDepth: 8,
  profile: null,
  orientation: 1,
  pages: 1,
  takenAt,
});
const UNDATED = [info("before.tif", null), info("after.tif", null)] as const;

const sample = compareResult();
const paper = (more: Partial<PaperReport>): PaperReport => ({ ...sample.paper!, ...more });
const ink = (deltaL: number, deltaE00 = 3): InkReport => ({
  ...sample.inks[0],
  deltaE00,
  floorDeltaE00: 0.5,
  deltaL,
});
const darker = paper({ verdict: "darker", deltaB: 2 });

describe("signs that the scans are the wrong way round", () => {
  test("the clock: the after scan was taken first; both files named without their folders", () => {
    const swapped = orderWarnings(
      info("before.tif", "2026-05-04T12:00:00"),
      info("after.tif", "2026-05-04T09:00:00"),
      null,
      [],
    );
    expect(swapped).toHaveLength(1);
    expect(swapped[0].code).toBe("order-swapped");
    expect(swapped[0].message).toContain("after.tif was taken before before.tif");
    expect(swapped[0].message).not.toContain("scans/");
  });

  test.each([
    ["in order", "2026-05-04T09:00:00", "2026-05-04T12:00:00"],
    ["at once", "2026-05-04T09:00:00", "2026-05-04T09:00:00"],
    ["one undated", null, "2026-05-04T09:00:00"],
  ])("%s: nothing is said", (_, first, second) => {
    expect(orderWarnings(info("b", first), info("a", second), null, [])).toEqual([]);
  });

  test("the colours: darker and yellower paper while half of the changed inks darkened", () => {
    const warned = orderWarnings(...UNDATED, darker, [ink(-1), ink(1)]);
    expect(warned.map(({ code }) => code)).toEqual(["order-swapped"]);
    expect(warned[0].message).toMatch(/darker and yellower/);
  });

  test.each<[string, PaperReport | null, readonly InkReport[]]>([
    ["lighter paper", paper({ verdict: "lighter", deltaB: 2 }), [ink(-1)]],
    ["darker but not yellower", paper({ verdict: "darker", deltaB: -1 }), [ink(-1)]],
    ["darker, yellowness not known", paper({ verdict: "darker", deltaB: null }), [ink(-1)]],
    ["most changed inks lighter", darker, [ink(-1), ink(1), ink(2)]],
    ["no paper", null, [ink(-1)]],
  ])("%s: nothing is said", (_, ofPaper, inks) => {
    expect(orderWarnings(...UNDATED, ofPaper, inks)).toEqual([]);
  });

  test("inks below their floor don't vote", () => {
    expect(orderWarnings(...UNDATED, darker, [ink(-1), ink(4, 0.2), ink(4, 0.3)])).toHaveLength(1);
  });
});
