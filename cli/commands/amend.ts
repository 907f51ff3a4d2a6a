import { Command } from "commander";
import type { Condition } from "../../src/bath/conditionSlip.ts";
import { LastrinseError } from "../../src/errors.ts";
import { applyChanges, foldEvents } from "../../src/record/currentEvents.ts";
import type { RecordEvent } from "../../src/record/event.ts";
import { gradeBlot } from "../../src/record/gradeBlot.ts";
import type { OpenRecord } from "../../src/record/openRecord.ts";
import { shellWord } from "../shellWord.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { CommonOptions } from "../context.ts";
import { eventId, eventResult, recordEvent, recordNamed } from "../inRecord.ts";
import { refuseSlip } from "../refuseSlip.ts";
import { refuseStrangeInk } from "../refuseStrangeInk.ts";

interface AmendOptions extends CommonOptions {
  readonly set: readonly string[];
  readonly why?: string;
  readonly withdraw: boolean;
  readonly unlisted: boolean;
}

/** `amend`: a correction. The event itself stays as it was written; the correction supersedes it. */
export function amendCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("amend")
    .description("correct an earlier event; the first writing stays in the record")
    .argument("<record>", "folder of the record")
    .argument("<event>", "id of the event, for example 000004, or 4")
    .option("--set <name=value>", "a setting and its new value; repeatable", collect, [])
    .option(
      "--withdraw",
      "the event does not count (a blotter test that was not fast asks for a new one)",
      false,
    )
    .option("--unlisted", "the ink named is on a face that was not scanned", false)
    .option("--why <text>", "why")
    .addHelpText(
      "after",
      `
Examples:
  lastrinse amend brine-bell 000006 --set minutes=7 --set surfactant=false --why "read the wrong clock"
  lastrinse amend brine-bell 000004 --withdraw --why "tested the wrong ink"`,
    );
  return runsJob<AmendOptions>(command, setExitStatus, async ([folder, id], options) => {
    const record = await recordNamed(folder);
    const { current, withdrawn } = foldEvents(record.events, () => undefined);
    // A withdrawn test still says which ink to test anew: the name can be put right.
    const open = [...current, ...withdrawn.filter(({ kind }) => kind === "blot")];
    const target = open.find((event) => event.id === eventId(String(id)));
    if (target === undefined)
      throw new LastrinseError(
        "wrong-use",
        `Expected the id of an event of ${record.folder}, received "${String(id)}".`,
        {
          remedy: `Use one of: ${open.map((event) => `${event.id} (${event.kind})`).join(", ")}.`,
          input: String(id),
        },
      );
    const changes = Object.fromEntries(options.set.map(parseChange));
    if (Object.keys(changes).length === 0 && !options.withdraw)
      throw new LastrinseError("wrong-use", "Expected --set or --withdraw, received neither.", {
        remedy: `Settings of this event: ${Object.keys(target.settings).join(", ")}.`,
        input: "--set",
      });
    if (options.withdraw && target.kind === "opened")
      throw new LastrinseError(
        "wrong-use",
        "The first event of a record can be corrected, not withdrawn.",
        {
          remedy: "Use --set; or start another record.",
          input: "--withdraw",
        },
      );
    for (const [name, value] of Object.entries(changes))
      if (name in CONDITION_OF && typeof value === "number")
        refuseSlip(CONDITION_OF[name], value, `--set ${name}`);
    applyChanges(target, changes);
    if (target.kind === "blot" && changes.result === null)
      throw new LastrinseError(
        "wrong-use",
        `Expected bleeds, doubtful or fast for the result of event ${target.id}, received nothing.`,
        {
          remedy:
            "A result can be corrected, not taken away. If the test is not to count, withdraw it: --withdraw.",
          input: "--set result",
        },
      );
    return {
      outputs: [],
      run: async () => {
        const ink = target.kind === "blot" ? changes.ink : changes.bleed;
        if (typeof ink === "string" && !options.unlisted)
          await refuseStrangeInk(record, ink, target.kind === "blot" ? "--set ink" : "--set bleed");
        const settings = {
          event: target.id,
          why: options.why ?? null,
          withdrawn: options.withdraw,
          changes,
        };
        const testAnew = options.withdraw ? await toTestAnew(record, target) : "";
        const event = await recordEvent(record.folder, "amended", settings, []);
        return eventResult(
          event,
          `It supersedes event ${target.id}, which stays as it was written.${testAnew} For the advice that now holds: lastrinse advise ${shellWord(record.folder)}`,
        );
      },
    };
  });
}

/** What a withdrawn blotter test leaves to be done, unless it was fast; empty for everything else. */
async function toTestAnew(record: OpenRecord, { id }: RecordEvent): Promise<string> {
  const blot = record.treatment.blots.find((test) => test.id === id);
  if (blot === undefined || (await gradeBlot(record, blot)).result === "fast") return "";
  const { ink } = blot.settings;
  return ` It had not been fast: test ${ink} anew before it goes into water. If the test was of another ink, say of which: lastrinse amend ${shellWord(record.folder)} ${id} --set ink=INK`;
}

/** Settings of baths and tests that are conditions. */
const CONDITION_OF: Readonly<Record<string, Condition>> = {
  volumeMl: "volumeMl",
  ph: "ph",
  phIn: "ph",
  phOut: "ph",
  temperatureC: "temperatureC",
  minutes: "minutes",
};

function collect(value: string, earlier: readonly string[]): string[] {
  return [...earlier, value];
}

/** "minutes=7" to a setting; values are read as JSON where they are JSON, else as text. */
function parseChange(text: string): [string, unknown] {
  const at = text.indexOf("=");
  if (at < 1)
    throw new LastrinseError("wrong-use", `Expected name=value for --set, received "${text}".`, {
      remedy: "For example: --set minutes=7 or --set note='second try'.",
      input: "--set",
    });
  const value = text.slice(at + 1);
  try {
    return [text.slice(0, at), JSON.parse(value)];
  } catch {
    return [text.slice(0, at), value];
  }
}
