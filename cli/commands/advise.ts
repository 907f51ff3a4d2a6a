import { shellWord } from "../shellWord.ts";
import { Command } from "commander";
import { assessTreatment } from "../../src/record/assessTreatment.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import { adviceText } from "../adviceText.ts";
import type { CommonOptions } from "../context.ts";
import { recordNamed } from "../inRecord.ts";
import { nameRecord } from "../nameRecord.ts";
import { noteLines } from "../noteLines.ts";
import { trayText } from "../trayText.ts";

interface AdviseOptions extends CommonOptions {
  readonly exitByAdvice: boolean;
  readonly full: boolean;
}

/** Status with `--exit-by-advice` where the advice is not "continue". */
const NOT_CONTINUE = 5;

/** `advise`: stop or continue, with reasons. Works before the first bath, from the blotter tests alone. */
export function adviseCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("advise")
    .description("stop or continue before the next bath, with the reasons")
    .argument("<record>", "folder of the record")
    .option("--exit-by-advice", "exit status 5 unless the advice is to continue", false)
    .option("--full", "all reasons, figures and notes, not only what is needed at the tray", false)
    .addHelpText(
      "after",
      "\nExamples:\n  lastrinse advise brine-bell\n  lastrinse advise brine-bell --full",
    );
  return runsJob<AdviseOptions>(command, setExitStatus, async ([folder], options) => {
    const record = await recordNamed(folder);
    return {
      outputs: [],
      run: async () => {
        const { assessment, warnings } = await assessTreatment(record);
        const { advice, fade, nextBath } = assessment;
        const named = nameRecord(advice, String(folder));
        return {
          json: {
            schema: "lastrinse.advice",
            version: 1,
            advice,
            fade,
            nextBath,
            baths: record.treatment.baths.length,
            warnings,
          },
          text: options.full
            ? [adviceText({ ...assessment, advice: named }), ...noteLines(warnings)].join("\n")
            : trayText(named, {
                notes: warnings.length,
                more: `lastrinse advise ${shellWord(String(folder))} --full`,
              }),
          exitStatus: options.exitByAdvice && advice.verdict !== "continue" ? NOT_CONTINUE : 0,
        };
      },
    };
  });
}
