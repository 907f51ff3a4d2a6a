import { drawCover } from "./cover.ts";
import { flatBlocks } from "./flatBlocks.ts";
import type { FlatBlocks } from "./flatBlocks.ts";
import { layOut } from "./layOut.ts";
import { sheetOutline } from "./outline.ts";
import type { FrameScene } from "./paintFrame.ts";
import type { LaidSheet } from "./paintSheet.ts";
import { PAIR_DEFAULTS } from "./pairOptions.ts";
import type { PairOptions } from "./pairOptions.ts";
import { pairTruth } from "./pairTruth.ts";
import type { PairTruth } from "./pairTruth.ts";
import { paperConditions } from "./paperConditions.ts";
import { sheetMap } from "./placement.ts";
import type { Placement } from "./placement.ts";
import { blankPlates } from "./plates.ts";
import type { Plates } from "./plates.ts";
import type { Scanner } from "./scanner.ts";
import { scannerOf } from "./scannerOf.ts";
import { UNWASHED, sheetPrimaries } from "./sheetSpectra.ts";
import type { Washing } from "./sheetSpectra.ts";
import { paperTexture } from "./texture.ts";

export interface PairScenes {
  readonly before: FrameScene;
  readonly after: FrameScene;
  readonly scannerBefore: Scanner;
  readonly scannerAfter: Scanner;
  readonly truth: PairTruth;
}

/** Remembers the last few results of a slow function; they are never written to afterwards. */
function remembering<A extends readonly number[], R>(compute: (...key: A) => R): (...key: A) => R {
  const kept = new Map<string, R>();
  return (...key) => {
    const name = key.join(" ");
    const known = kept.get(name);
    if (known !== undefined) return known;
    const result = compute(...key);
    if (kept.size >= 3) kept.clear();
    kept.set(name, result);
    return result;
  };
}

const coverOf = remembering((seed: number, widthMm: number, heightMm: number) => {
  const plates = drawCover(seed, widthMm, heightMm);
  return { plates, blocks: flatBlocks(plates) };
});
const textureOf = remembering(paperTexture);

/** The scenes of a pair and their truth, not yet scanned. */
export function pairScenes(given: Partial<PairOptions> = {}): PairScenes {
  const options: PairOptions = { ...PAIR_DEFAULTS, ...given };
  const { widthMm, heightMm, seed, bed, dpiBefore, dpiAfter } = options;
  const cover = coverOf(options.coverSeed, widthMm, heightMm);
  const { plates } = cover;
  const outline = sheetOutline(widthMm, heightMm, options.coverSeed);
  const washing: Washing = {
    yellowingRemoved: options.yellowingRemoved,
    soilRemoved: options.soilRemoved,
    inkLoss: options.inkLoss,
    dullBlack: options.dullBlack,
    bleedingInk: options.bleed?.ink ?? null,
  };
  const wear = { seed: seed + 100, worn: options.worn };
  const conditionsBefore = paperConditions(plates, {
    ...wear,
    tideLine: null,
    bleed: null,
    unevenCleaning: 0,
  });
  const { tideLine, bleed, unevenCleaning } = options;
  const conditionsAfter =
    tideLine === null && bleed === null && unevenCleaning === 0
      ? conditionsBefore
      : paperConditions(plates, { ...wear, tideLine, bleed, unevenCleaning });

  const laidBefore = layOut(options, {
    rotationDegrees: options.rotationBeforeDegrees,
    scale: 1,
    shiftMm: [0, 0],
    cardAngleDegrees: options.cardAngleBeforeDegrees,
    cardSide: -1,
  });
  const laidAfter = layOut(options, {
    rotationDegrees: options.rotationAfterDegrees,
    scale: Math.max(options.scaleX, options.scaleY),
    shiftMm: options.shiftMm,
    cardAngleDegrees: options.cardAngleAfterDegrees,
    cardSide: 1,
  });
  const placementBefore: Placement = {
    rotationDegrees: options.rotationBeforeDegrees,
    scaleX: 1,
    scaleY: 1,
    middle: laidBefore.middle,
    cockleMm: 0,
    shortestWaveMm: options.shortestWaveMm,
    cockleSeed: 0,
    mirrored: false,
  };
  const placementAfter: Placement = {
    rotationDegrees: options.rotationAfterDegrees,
    scaleX: options.scaleX,
    scaleY: options.scaleY,
    middle: laidAfter.middle,
    cockleMm: options.cockleMm,
    shortestWaveMm: options.shortestWaveMm,
    cockleSeed: seed + 200,
    mirrored: options.afterShows === "mirrored",
  };
  const mapBefore = sheetMap(placementBefore, widthMm, heightMm);
  const mapAfter = sheetMap(placementAfter, widthMm, heightMm);
  const printAfter = (): { plates: Plates; blocks: FlatBlocks } => {
    switch (options.afterShows) {
      case "same":
      case "mirrored":
        return cover;
      case "other":
        return coverOf(options.coverSeed + 1, widthMm, heightMm);
      case "blank": {
        const blank = blankPlates(widthMm, heightMm);
        return { plates: blank, blocks: flatBlocks(blank) };
      }
    }
  };

  const grainSeed = 1000 + 10 * options.coverSeed;
  const paperOf = { outline, grain: options.grain, mottle: options.mottle };
  const sheetBefore: LaidSheet = {
    ...paperOf,
    ...cover,
    conditions: conditionsBefore,
    primaries: sheetPrimaries(UNWASHED, bed),
    map: mapBefore,
    texture: textureOf(grainSeed),
  };
  const another =
    options.regrain || options.afterShows === "other" || options.afterShows === "blank";
  const sheetAfter: LaidSheet = {
    ...paperOf,
    ...printAfter(),
    conditions: conditionsAfter,
    primaries: sheetPrimaries(washing, bed),
    map: mapAfter,
    texture: textureOf(another ? grainSeed + 5 : grainSeed),
  };
  const before: FrameScene = { ...laidBefore, dpi: dpiBefore, bed, sheet: sheetBefore };
  const after: FrameScene = { ...laidAfter, dpi: dpiAfter, bed, sheet: sheetAfter };
  const truth = pairTruth(
    { plates, conditionsBefore, conditionsAfter, outline, washing, backing: bed },
    before,
    after,
    mapBefore,
    mapAfter,
  );
  return {
    before,
    after,
    scannerBefore: scannerOf(options, "before"),
    scannerAfter: scannerOf(options, "after"),
    truth,
  };
}
