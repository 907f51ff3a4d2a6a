import type { TreatmentView } from "../record/treatmentView.ts";
import { washedOn } from "./statementPart.tsx";

/** What a report shows, as one object without pictures and events (`export` prints those): rebuilt from the record at any time. */
export function treatmentJson(view: TreatmentView): object {
  return {
    schema: "lastrinse.treatment",
    version: 1,
    ...view,
    // Undefined fields are left out of the JSON.
    events: undefined,
    beforePicture: undefined,
    washedOn: washedOn(view),
    baths: view.baths.map((bath) => ({ ...bath, spentPhoto: undefined, blankPhoto: undefined })),
    blots: view.blots.map((blot) => ({ ...blot, photo: undefined })),
    comparisons: view.comparisons.map(({ compared, ...one }) => ({
      ...one,
      result: compared?.result ?? null,
    })),
  };
}
