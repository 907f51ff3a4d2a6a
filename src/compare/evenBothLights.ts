import { basename } from "node:path";
import type { Correction } from "../calibrate/correction.ts";
import { USUAL_UNEVENNESS } from "../calibrate/lightTerm.ts";
import { planesToLab } from "../calibrate/planesToLab.ts";
import { unevenness } from "../calibrate/unevenness.ts";
import type { Warning } from "../errors.ts";
import type { Planes } from "../grid/planes.ts";
import { findSheet } from "../regions/findSheet.ts";
import { reduceLab } from "../grid/reduceLab.ts";
import { bedLight, type BedLight } from "./bedLight.ts";
import { evenLight } from "./evenLight.ts";
import type { Frame } from "./openFrame.ts";
import { MM_PER_INCH } from "../numeric/units.ts";
import type { PairScale } from "./scaleOfPair.ts";

export interface EvenedLight {
  /** Share by which the light on an area may still differ between the frames without the card showing it. */
  readonly share: number;
  readonly warnings: readonly Warning[];
}

/** The after sheet is only outlined, to find the bed round it. */
const COARSE_MM = 0.4;

/** A set-up with less fall-off than this is called even (FADGI 2016, three stars: below 3 %). */
const UNEVEN = 0.03;

/**
 * Takes the fall-off of the light out of both frames, where the scanner bed round the sheet shows it in both.
 * @param planes Tone-corrected, before then after; changed in place where the light is evened.
 * @param sheetBefore 1 on the sheet of the before planes.
 */
export function evenBothLights(
  frames: readonly [Frame, Frame],
  planes: readonly [Planes, Planes],
  corrections: readonly [Correction, Correction],
  scale: PairScale,
  sheetBefore: Uint8Array,
): EvenedLight {
  const [before, after] = frames;
  if (before.cardOutline === null || after.cardOutline === null)
    return { share: USUAL_UNEVENNESS, warnings: [] };
  const { width, height, stepX, stepY } = planes[1];
  const mmPerCell = (stepX * MM_PER_INCH) / scale.after;
  const [L, a, b] = planesToLab(planes[1], corrections[1]);
  const image = { width, height, stepX, stepY, mmPerCell, L, a, b };
  const coarse = reduceLab(image, Math.max(1, Math.round(COARSE_MM / mmPerCell)));
  const sheetAfter = findSheet(coarse, [after.cardOutline]).mask;
  const lights = [
    bedLight(before.pixels, sheetBefore, planes[0], before.cardOutline, MM_PER_INCH / scale.before),
    bedLight(after.pixels, sheetAfter, coarse, after.cardOutline, MM_PER_INCH / scale.after),
  ] as const;
  const warnings = lights.flatMap((light, i) => unevenWarning(light, frames[i]));
  if (lights[0] === null || lights[1] === null) return { share: USUAL_UNEVENNESS, warnings };
  evenLight(planes[0], corrections[0], lights[0]);
  evenLight(planes[1], corrections[1], lights[1]);
  return {
    share: Math.hypot(lights[0].field.residualShare, lights[1].field.residualShare),
    warnings,
  };
}

function unevenWarning(light: BedLight | null, { info }: Frame): Warning[] {
  if (light === null) return [];
  const share = unevenness(light.field, [0, 0, info.widthPixels, info.heightPixels]);
  if (share < UNEVEN) return [];
  return [
    {
      code: "uneven-light",
      message: `The light in ${basename(info.file)} varies by ${(100 * share).toFixed(0)} % over the frame; it was evened out by what the bed round the sheet shows. Let the lamp warm up, and keep daylight off the scanner.`,
    },
  ];
}
