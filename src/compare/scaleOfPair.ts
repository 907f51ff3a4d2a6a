import { basename } from "node:path";
import type { Card, PlacedCard } from "../card/card.ts";
import { MM_PER_INCH } from "../numeric/units.ts";
import { LastrinseError, type Warning } from "../errors.ts";
import type { Frame } from "./openFrame.ts";

export interface ScaleSource {
  readonly file: string;
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** From the user, else from the file; null where neither knows. */
  readonly dpi: number | null;
  readonly placed: PlacedCard;
  /** The card lies in a scan of its own, whose scale may be another. */
  readonly cardAlone: boolean;
}

/** What tells the scale of a frame. */
export function scaleSource(
  { info, placed }: Frame,
  dpi: number | undefined,
  cardScan: string | undefined,
): ScaleSource {
  const { file, widthPixels, heightPixels } = info;
  return {
    file,
    widthPixels,
    heightPixels,
    dpi: dpi ?? info.dpi,
    placed,
    cardAlone: cardScan !== undefined,
  };
}

export interface PairScale {
  readonly before: number;
  readonly after: number;
  readonly warnings: readonly Warning[];
}

/** Settings that scanners offer. */
const USUAL_DPI = [75, 100, 150, 200, 240, 300, 400, 600, 800, 1200];

/** Long side of the scanner bed assumed where nothing else tells the scale (ISO 216 A4). */
const ASSUMED_BED_MM = 297;

/** Mean distance of neighbouring patch centres, in pixels. */
function pitchPixels({ corners }: PlacedCard, { rows, columns }: Card): number {
  const [a, b, c, d] = corners;
  const side = (p: readonly [number, number], q: readonly [number, number]): number =>
    Math.hypot(p[0] - q[0], p[1] - q[1]);
  return (
    ((side(a, b) + side(c, d)) / (2 * (columns - 1)) +
      (side(a, d) + side(b, c)) / (2 * (rows - 1))) /
    2
  );
}

function fromFrameSize({ widthPixels, heightPixels }: ScaleSource): number {
  const dpi = (Math.max(widthPixels, heightPixels) / ASSUMED_BED_MM) * MM_PER_INCH;
  return USUAL_DPI.reduce((best, usual) =>
    Math.abs(Math.log(usual / dpi)) < Math.abs(Math.log(best / dpi)) ? usual : best,
  );
}

/**
 * Pixels per inch of both scans. What a file does not tell comes from the card: from its pitch where that is known, else from
 * the other scan's scale and the size of the same card in both; as a last resort from the size of the frame.
 * @throws {LastrinseError} `wrong-use` under `strict` where the scale had to be assumed.
 */
export function scaleOfPair(
  before: ScaleSource,
  after: ScaleSource,
  card: Card,
  strict: boolean,
): PairScale {
  const byCard = (source: ScaleSource): number | null =>
    card.pitchMm === null || source.cardAlone
      ? null
      : (pitchPixels(source.placed, card) / card.pitchMm) * MM_PER_INCH;
  const ratio =
    before.cardAlone || after.cardAlone
      ? 1
      : pitchPixels(after.placed, card) / pitchPixels(before.placed, card);
  const knownBefore = before.dpi ?? byCard(before);
  const knownAfter = after.dpi ?? byCard(after);
  const beforeDpi =
    knownBefore ?? (knownAfter === null ? fromFrameSize(before) : knownAfter / ratio);
  const afterDpi = knownAfter ?? beforeDpi * ratio;
  const warnings: Warning[] = [];
  for (const [source, dpi] of [
    [before, beforeDpi],
    [after, afterDpi],
  ] as const) {
    if (source.dpi !== null) continue;
    const assumed = knownBefore === null && knownAfter === null;
    const how = assumed
      ? "assumed from the size of the frame, so areas and lengths are rough"
      : "taken from the card";
    const message = `${basename(source.file)} does not say its resolution: ${dpi.toFixed(0)} dpi ${how}.`;
    const remedy = "Give --dpi with the resolution the scan was made at.";
    if (strict && assumed)
      throw new LastrinseError("wrong-use", message, { remedy, input: source.file });
    warnings.push({ code: "no-dpi", message: `${message} ${remedy}` });
  }
  return { before: beforeDpi, after: afterDpi, warnings };
}
