import { compareReport } from "../../src/report/compareReport.tsx";
import { treatmentReport } from "../../src/report/treatmentReport.ts";
import { compareResult, comparisonPngs, emptyView, treatmentView } from "./treatmentView.ts";

/** Every kind of page, by name. */
export const PAGES: Readonly<Record<string, () => Promise<string>>> = {
  interim: async () => treatmentReport(await treatmentView("interim")),
  "interim without any scan": async () => treatmentReport(await emptyView()),
  final: async () => treatmentReport(await treatmentView("final")),
  compare: async () => compareReport(compareResult(), await comparisonPngs()),
  "compare with a card that was never measured": async () =>
    compareReport(compareResult({ paper: null }, false), await comparisonPngs()),
};
