import type { TreatmentView } from "../record/treatmentView.ts";
import { finalReport } from "./finalReport.tsx";
import { interimReport } from "./interimReport.tsx";
import { pagePictures, photoUri } from "./pagePictures.ts";

/** Long side of the one picture before the next bath. */
const SINGLE_SIDE = 1000;

/** The page of a treatment record: interim before the washed scan, final after it. One self-contained HTML file. */
export async function treatmentReport(view: TreatmentView): Promise<string> {
  if (view.kind === "interim") {
    const { beforePicture } = view;
    return interimReport(
      view,
      beforePicture === null ? null : await photoUri(beforePicture.png, SINGLE_SIDE),
    );
  }
  const measured = view.comparisons.flatMap(({ compared }) => compared ?? []);
  return finalReport(view, await pagePictures(measured));
}
