import type { Warning } from "../errors.ts";
import type { SoughtPaper } from "../regions/seekPaper.ts";

/** From this uncertainty (dE00) on the paper's colour is called doubtful. */
const DOUBTFUL_SIGMA = 0.8;

/**
 * What has to be said of the paper that figures are told relative to.
 * @param measured Whether bare paper was measured.
 */
export function paperWarnings(measured: boolean, sought: SoughtPaper): Warning[] {
  const remedy = `If a place of the cover is bare, give it with --paper x,y,w,h (pixels of the before scan).`;
  if (!measured)
    return [
      {
        code: "no-paper",
        message: `No bare paper was found that can be measured${sought.source === "estimated" ? "; its colour is only estimated from the lights of the art" : ""}. How much of a change the paper explains is not known, so no loss of ink can be concluded. ${remedy}`,
      },
    ];
  if (sought.sigmaDeltaE00 === null || sought.sigmaDeltaE00 < DOUBTFUL_SIGMA) return [];
  return [
    {
      code: "paper-doubtful",
      message: `The bare paper is known only to about ${sought.sigmaDeltaE00.toFixed(1)} dE00; all ink parts are widened by that. ${remedy}`,
    },
  ];
}
