import { Command } from "commander";
import { LastrinseError } from "../../src/errors.ts";
import { type StrangeInk, strangeInk } from "../../src/record/strangeInk.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { CommonOptions } from "../context.ts";
import { describeInputs, eventResult, parseBox, recordEvent, recordNamed } from "../inRecord.ts";
import { plainLine } from "../plainText.ts";
import { shellWord } from "../shellWord.ts";

interface StepOptions extends CommonOptions {
  readonly what?: string;
  readonly photo?: string;
  readonly area?: string;
  readonly bleed?: string;
}

/** `step`: a timed note of anything; `--bleed INK` alone is the stop-watch line of a bleed. */
export function stepCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("step")
    .description("record a timed note: a step of the treatment, a bleed, a repaired area")
    .argument("<record>", "folder of the record")
    .option("--what <text>", "what was done or seen")
    .option("--photo <file>", "a photo of it")
    .option("--area <x,y,width,height>", "where on the before scan, in pixels")
    .option("--bleed <ink>", "this ink is bleeding")
    .addHelpText(
      "after",
      `
Examples:
  lastrinse step brine-bell --bleed red
  lastrinse step brine-bell --what "tear at the foot mended with wheat starch paste" --area 40,2100,300,200`,
    );
  return runsJob<StepOptions>(command, setExitStatus, async ([folder], options) => {
    const record = await recordNamed(folder);
    const { bleed, area } = options;
    const what = options.what ?? (bleed === undefined ? undefined : `${bleed} is bleeding`);
    if (what === undefined)
      throw new LastrinseError("wrong-use", "Expected --what or --bleed, received neither.", {
        remedy: 'Say what was done: --what "..."; or which ink bleeds: --bleed red.',
        input: "--what",
      });
    return {
      outputs: [],
      run: async () => {
        const inputs = await describeInputs(record.folder, { photo: options.photo });
        const settings = {
          what,
          area: area === undefined ? null : parseBox(area, "--area"),
          bleed: bleed ?? null,
        };
        const event = await recordEvent(record.folder, "step", settings, inputs);
        const strange = bleed === undefined ? null : await strangeInk(record, bleed);
        return eventResult(
          event,
          bleed === undefined
            ? ""
            : `${strange === null ? "" : `${strangeLine(record.folder, event.id, bleed, strange)}\n`}Out on the support, blot both faces with fresh dry blotters, no further water of any kind until that ink tests fast in that liquid.`,
        );
      },
    };
  });
}

/** A bleed counts whatever it is called; only the test that takes it back must find it by its name. */
function strangeLine(
  folder: string,
  id: string,
  bleed: string,
  { inks, nearest }: StrangeInk,
): string {
  const meant = nearest ?? inks[0];
  return plainLine(
    `"${bleed}" is none of the inks of the before scan (${inks.join(", ")}): the sheet is lifted all the same. ${nearest === null ? "If it is one of them" : `If ${nearest} was meant`}: lastrinse amend ${shellWord(folder)} ${id} --set ${shellWord(`bleed=${meant}`)}`,
  );
}
