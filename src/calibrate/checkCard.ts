import { basename } from "node:path";
import { chooseCorrection } from "./chooseCorrection.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import type { Warning } from "../errors.ts";
import { openScan } from "../raster/openScan.ts";
import type { Card } from "../card/card.ts";
import { findCard } from "../card/findCard.ts";
import { MATCH_ACCEPTED } from "../card/matchResidual.ts";
import type { Corners } from "../card/parseCorners.ts";
import { placeCard } from "../card/placeCard.ts";
import { referenceWarnings } from "../card/referenceWarnings.ts";
import { samplePatches } from "../card/samplePatches.ts";
import type { CardCheck } from "../results/cardCheck.ts";

export interface CardCheckOptions {
  readonly corners?: Corners | undefined;
  readonly page?: number | undefined;
  readonly strict?: boolean | undefined;
}

/**
 * Looks at the card in one photo or scan: is it found, and how well does it calibrate the frame?
 * @throws {LastrinseError} `card-not-found`, `card-untrusted`, and what makes a file unreadable.
 */
export async function checkCard(
  file: string,
  card: Card,
  { corners, page, strict = false }: CardCheckOptions = {},
): Promise<CardCheck> {
  const { pixels, warnings } = await openScan(file, { page, strict });
  let placed;
  let samples;
  try {
    placed =
      corners === undefined
        ? await findCard(pixels, card, file)
        : placeCard(pixels, card, corners, file);
    samples = samplePatches(pixels, card, placed);
  } finally {
    pixels.release();
  }
  const choice = chooseCorrection([{ samples }], card);
  const [{ leaveOneOut, patchLabs }] = choice.frames;
  const doubtful: Warning[] =
    placed.matchResidual <= MATCH_ACCEPTED
      ? []
      : [
          {
            code: "card-doubtful",
            message: `The card in ${basename(file)} fits badly (residual ${placed.matchResidual.toFixed(1)}, good up to ${String(MATCH_ACCEPTED)}): give the centres of its corner patches with --corners.`,
          },
        ];
  return {
    schema: "lastrinse.card-check",
    version: 1,
    found: true,
    card: card.name,
    cornersPixels: placed.corners,
    patchCentresPixels: placed.centres,
    matchResidual: placed.matchResidual,
    model: choice.model,
    leaveOneOut:
      leaveOneOut === null
        ? null
        : { mean: leaveOneOut.mean, p95: leaveOneOut.p95, max: leaveOneOut.max },
    patches: card.patches.map(({ name, lab }, i) => ({
      name,
      labReference: lab,
      labMeasured: patchLabs[i],
      deltaE00: ciede2000(lab, patchLabs[i]),
      dropped: !choice.usable[i],
    })),
    warnings: [
      ...warnings.filter(({ code }) => code !== "no-dpi"),
      ...referenceWarnings(card),
      ...doubtful,
      ...choice.warnings,
    ],
  };
}
