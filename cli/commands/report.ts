import { join } from "node:path";
import { Command } from "commander";
import { SHEET_WORDS, VERDICT_WORDS } from "../../src/results/adviceWords.ts";
import { viewTreatment } from "../../src/record/treatmentView.ts";
import { comparisonSummary } from "../../src/report/comparisonPart.tsx";
import { treatmentCsv } from "../../src/report/inksCsv.ts";
import { disclosure } from "../../src/report/statementPart.tsx";
import { treatmentJson } from "../../src/report/treatmentJson.ts";
import { treatmentReport } from "../../src/report/treatmentReport.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { CommonOptions } from "../context.ts";
import { recordNamed } from "../inRecord.ts";
import { toJson } from "../toJson.ts";

const EXAMPLES = `
Examples:
  lastrinse report brine-bell
  lastrinse report brine-bell --out for-the-owner`;

/** `report`: the page of a treatment, before the next bath or after drying. */
export function reportCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("report")
    .description(
      "write the page of a treatment: before the next bath, or after drying (default folder: report in the record)",
    )
    .argument("<record>", "folder of the record")
    .addHelpText("after", EXAMPLES);
  return runsJob<CommonOptions>(
    command,
    setExitStatus,
    async ([folder]) => {
      const record = await recordNamed(folder);
      const final = record.treatment.washed.size > 0;
      const outputs = ["report.html", ...(final ? ["inks.csv"] : []), "result.json"];
      return {
        outputs,
        run: async (progress) => {
          const view = await viewTreatment(record, progress);
          const files = {
            "report.html": await treatmentReport(view),
            ...(final ? { "inks.csv": treatmentCsv(view) } : {}),
            "result.json": toJson(treatmentJson(view)),
          };
          progress.report("done", 1);
          const { advice } = view;
          return {
            json: { schema: "lastrinse.report", version: 1, kind: view.kind, files: outputs },
            text:
              view.kind === "interim"
                ? `The sheet now: ${SHEET_WORDS[advice.sheetNow]}\nAdvice: ${VERDICT_WORDS[advice.verdict]}\nLook at report.html in the folder named above.`
                : [
                    disclosure(view),
                    ...view.comparisons.flatMap(({ compared }) =>
                      compared === null ? [] : [comparisonSummary(compared.result)],
                    ),
                    "Look at report.html in the folder named above.",
                  ].join("\n"),
            files,
          };
        },
      };
    },
    { defaultFolder: ([folder]) => join(String(folder), "report") },
  );
}
