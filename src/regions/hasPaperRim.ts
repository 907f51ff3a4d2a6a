import type { Triple } from "../numeric/triple.ts";
import type { LabImage } from "../grid/labImage.ts";
import { complement } from "../grid/complement.ts";
import { farFrom } from "../grid/farFrom.ts";
import { labHistogram } from "./labHistogram.ts";
import { labelPixels } from "./labelPixels.ts";
import { seekModes } from "./seekModes.ts";
import { BED_BANDWIDTH, LEAST_TOLERANCE } from "./bedColour.ts";

/** Rim of the sheet in which bare paper is expected where the bed itself looks like paper. */
const RIM_MM = 4;

/** Whether most of the sheet's rim (where the frame does not cut it) is one light colour: bare paper beside the bed. */
export function hasPaperRim(image: LabImage, sheet: Uint8Array, bed: Triple): boolean {
  const { width, height, mmPerCell } = image;
  const reach = Math.round(RIM_MM / mmPerCell);
  const inner = farFrom(complement(sheet), width, height, reach);
  const rim = new Uint8Array(sheet.length);
  let cells = 0;
  for (let i = 0; i < rim.length; i++)
    if (sheet[i] === 1 && inner[i] === 0) {
      rim[i] = 1;
      cells++;
    }
  const modes = seekModes(labHistogram(image, rim), BED_BANDWIDTH);
  const labels = labelPixels(
    image,
    rim,
    modes.map((mode) => mode.lab),
  );
  const count = new Float64Array(modes.length + 1);
  for (let i = 0; i < labels.length; i++) count[labels[i]]++;
  const LEAST_PAPER_L = 60;
  const MOST_PAPER_CHROMA = 35;
  return modes.some(
    ({ lab }, k) =>
      count[k + 1] >= 0.5 * cells &&
      lab[0] >= LEAST_PAPER_L &&
      Math.hypot(lab[1], lab[2]) <= MOST_PAPER_CHROMA &&
      Math.hypot(lab[0] - bed[0], lab[1] - bed[1], lab[2] - bed[2]) >= LEAST_TOLERANCE,
  );
}
