import { compareReport } from "../../src/report/compareReport.tsx";
import { refusedReport } from "../../src/report/refusedReport.tsx";
import { treatmentReport } from "../../src/report/treatmentReport.ts";
import {
  compareResult,
  comparisonPngs,
  emptyView,
  HOSTILE,
  treatmentView,
} from "./treatmentView.ts";

/** Every kind of page, by name. */
export const PAGES: Readonly<Record<string, () => Promise<string>>> = {
  interim: async () => treatmentReport(await treatmentView("interim")),
  "interim without any scan": async () => treatmentReport(await emptyView()),
  final: async () => treatmentReport(await treatmentView("final")),
  compare: async () => compareReport(compareResult(), await comparisonPngs()),
  "compare with a card that was never measured": async () =>
    compareReport(compareResult({ paper: null }, false), await comparisonPngs()),
  refused: () =>
    Promise.resolve(
      refusedReport({
        code: "card-not-found",
        message: `Expected a card in ${HOSTILE}.`,
        remedy: "Scan again with the card in the frame.",
        input: `scans/${HOSTILE}`,
      }),
    ),
};
