import { renderSide, type RenderedSide, type Side } from "./registrationCase.ts";
import {
  sheetImage,
  throughJpeg,
  type ArtOptions,
  type BedCard,
  type Condition,
  type Lie,
} from "./renderSheet.ts";
import type { SheetImage } from "../../src/register/sheetImage.ts";

/** A pair made by construction. */
export interface PairCase {
  readonly name: string;
  /** The sheet lies straight before. */
  readonly before?: Partial<Side>;
  readonly lie: Lie;
  readonly condition?: Condition;
  readonly after?: Partial<Side>;
  readonly jpegQuality?: number;
  /** What p95 must not exceed, px at 600 dpi. */
  readonly limit: number;
  /** Whether that holds for trusted places only: where the grain of blank paper is new, nothing can be found again. */
  readonly onTrusted?: boolean;
}

const TYPICAL: Lie = {
  rotationDegrees: 1.7,
  scale: 1.012,
  shiftMm: [1.5, -2],
  cockleMm: 1.5,
  cockleSeed: 5,
};
const FADED: Condition = { fade: [0, 0.2, 0, 0] };

/** Bed on all sides of the sheet together, mm. */
const BED_MM = 14;
const SCANNER_NOISE = 1.5;

export const PAIR_CASES = {
  typical: { name: "typical", lie: TYPICAL, condition: FADED, limit: 1 },
  jpeg: { name: "typical, JPEG q60", lie: TYPICAL, condition: FADED, jpegQuality: 60, limit: 1 },
  strong: {
    name: "strong",
    lie: { ...TYPICAL, rotationDegrees: -3, scale: 0.98, waveMm: [55, 55] },
    condition: FADED,
    limit: 1.5,
  },
  turned90: {
    name: "turned 91.5",
    lie: { ...TYPICAL, rotationDegrees: 91.5 },
    condition: FADED,
    limit: 1,
  },
  turned180: {
    name: "turned 178.6",
    lie: { ...TYPICAL, rotationDegrees: 178.6 },
    condition: FADED,
    limit: 1,
  },
  heavy: {
    name: "heavy fade, noise 4",
    lie: TYPICAL,
    condition: { fade: [0.5, 0.6, 0, 0], whitening: 8 },
    after: { noise: 4 },
    limit: 1,
  },
  regrain: {
    name: "new paper grain",
    lie: TYPICAL,
    condition: { ...FADED, grainSeed: 200 },
    limit: 1.5,
    onTrusted: true,
  },
  after200: {
    name: "after at 200 dpi",
    lie: TYPICAL,
    condition: FADED,
    after: { dpi: 200 },
    limit: 1,
  },
  after600: {
    name: "after at 600 dpi",
    lie: TYPICAL,
    condition: FADED,
    after: { dpi: 600 },
    limit: 1,
  },
  both150: {
    name: "both at 150 dpi",
    before: { dpi: 150 },
    lie: TYPICAL,
    condition: FADED,
    after: { dpi: 150 },
    limit: 1,
  },
  cropped: {
    name: "frames 5 mm inside the sheet",
    before: { bed: { widthMm: -10, heightMm: -10 } },
    lie: TYPICAL,
    condition: FADED,
    after: { bed: { widthMm: -10, heightMm: -10 } },
    limit: 1,
  },
  partial: {
    name: "after shows three quarters",
    lie: { ...TYPICAL, shiftMm: [0, 0] },
    condition: FADED,
    after: { bed: { widthMm: BED_MM, heightMm: -35 } },
    limit: 1,
  },
} as const satisfies Record<string, PairCase>;

export const SMALL: ArtOptions = { seed: 3, widthMm: 120, heightMm: 170 };
export const COVER: ArtOptions = { seed: 3, widthMm: 395, heightMm: 265 };

export interface PairSides {
  readonly before: Side;
  readonly after: Side;
}

/** Fills in what a case leaves open. The bed of a case is given as what it exceeds the sheet by. */
export function sidesOf(art: ArtOptions, pair: PairCase): PairSides {
  const quarter = Math.abs(Math.sin(((pair.lie.rotationDegrees ?? 0) * Math.PI) / 180)) > 0.7;
  const side = (part: Partial<Side>, lie: Lie, condition: Condition, turned: boolean): Side => {
    const { widthMm, heightMm } = part.bed ?? { widthMm: BED_MM, heightMm: BED_MM };
    return {
      lie,
      condition,
      dpi: 300,
      noise: SCANNER_NOISE,
      ...part,
      bed: {
        widthMm: (turned ? art.heightMm : art.widthMm) + widthMm,
        heightMm: (turned ? art.widthMm : art.heightMm) + heightMm,
      },
    };
  };
  return {
    before: side(pair.before ?? {}, {}, {}, false),
    after: side(pair.after ?? {}, pair.lie, pair.condition ?? {}, quarter),
  };
}

export interface RenderedPair {
  readonly sides: PairSides;
  readonly before: SheetImage;
  readonly after: SheetImage;
}

/**
 * Renders both frames of a case.
 * @param render Draws one side; replaced where frames are kept between cases.
 */
export async function renderPair(
  art: ArtOptions,
  pair: PairCase,
  render: (art: ArtOptions, side: Side, noiseSeed: number) => RenderedSide = renderSide,
): Promise<RenderedPair> {
  const sides = sidesOf(art, pair);
  const after = render(art, sides.after, 2).image;
  return {
    sides,
    before: sheetImage(render(art, sides.before, 1).image, sides.before.dpi),
    after: sheetImage(
      pair.jpegQuality === undefined ? after : await throughJpeg(after, pair.jpegQuality),
      sides.after.dpi,
    ),
  };
}

/** A card beside the sheet before, above it after: a pair of beds with room for it. */
export const CARD_BEFORE: BedCard = { leftMm: 4, topMm: 20, widthMm: 40, heightMm: 60 };
export const CARD_AFTER: BedCard = { leftMm: 30, topMm: 4, widthMm: 60, heightMm: 40 };
