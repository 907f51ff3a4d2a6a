import { shellWord } from "../shellWord.ts";
import { mkdir, readdir } from "node:fs/promises";
import { basename, isAbsolute, join, relative, resolve, sep } from "node:path";
import { Command } from "commander";
import { DEFAULT_LIMITS } from "../../calibration/priors.ts";
import { LastrinseError } from "../../src/errors.ts";
import { EVENT_FILE } from "../../src/record/event.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { CommonOptions } from "../context.ts";
import { eventResult, recordEvent } from "../inRecord.ts";
import { addJarShape, type JarShapeOptions } from "../jarShape.ts";
import { numberBetween } from "../parse.ts";

interface OpenOptions extends CommonOptions, JarShapeOptions {
  readonly title?: string;
  readonly object?: string;
  readonly bench?: string;
  readonly maxDeltaE00: number;
  readonly risk: number;
  readonly minGain: number;
}

const EXAMPLES = `
Examples:
  lastrinse open brine-bell
  lastrinse open brine-bell --title "Brine Bell, cover" --jar flat --inside-mm 50 --passes 1
  lastrinse open brine-bell --title "Brine Bell, cover" --bench my-bench --max-delta-e00 1.5`;

/** `open`: starts a treatment record. */
export function openCommand(setExitStatus: SetExitStatus): Command {
  const command = addJarShape(
    new Command("open")
      .description("start the record of a treatment")
      .argument("<record>", "a new folder")
      .option("--title <text>", "what is washed (default: the folder's name)")
      .option("--object <text>", "description of the object, owner's mark, consent")
      .option(
        "--bench <folder>",
        "folder in which finished treatments of this bench leave what they taught",
      ),
  )
    .option(
      "--max-delta-e00 <dE00>",
      "largest fade you accept of an ink",
      numberBetween(0.1, 50),
      DEFAULT_LIMITS.maxDeltaE00,
    )
    .option(
      "--risk <share>",
      "largest accepted probability of exceeding it",
      numberBetween(0, 1),
      DEFAULT_LIMITS.risk,
    )
    .option(
      "--min-gain <share>",
      "least gain of another bath, as a share of the soil removed so far",
      numberBetween(0, 1),
      DEFAULT_LIMITS.minGain,
    )
    .addHelpText("after", EXAMPLES);
  return runsJob<OpenOptions>(command, setExitStatus, ([folder], options) => ({
    outputs: [],
    run: async () => {
      const record = String(folder);
      await refuseUsedFolder(record);
      const { title, object, bench, jar, insideMm, passes, maxDeltaE00, risk, minGain } = options;
      // From now on a bench folder that is not there is one that was lost.
      if (bench !== undefined) await makeFolder(bench);
      const event = await recordEvent(
        record,
        "opened",
        {
          title: title ?? basename(resolve(record)),
          object: object ?? null,
          bench: bench === undefined ? null : fromRecord(record, bench),
          jar: jar ?? null,
          insideMm: insideMm ?? null,
          passes: passes ?? null,
          limits: { maxDeltaE00, risk, minGain },
        },
        [],
      );
      return eventResult(
        event,
        `Record ${record} is open. Next: scan the dry cover with the card (lastrinse before ${shellWord(record)} SCAN), and test every ink under a blotter (lastrinse blot ${shellWord(record)} --ink INK --result WORD ...).${jar === undefined ? " No jar is named yet: before the first jar photo say which it is (--jar, --inside-mm, --passes at opening), or give --station with the bath." : ""}`,
      );
    },
  }));
}

async function makeFolder(bench: string): Promise<void> {
  await mkdir(bench, { recursive: true }).catch((error: unknown) => {
    throw new LastrinseError("output-unwritable", `The bench folder ${bench} can't be made.`, {
      remedy: "Name a folder with --bench that can be written.",
      input: bench,
      cause: error,
    });
  });
}

/** The bench folder relative to the record, so that both can move together. */
function fromRecord(record: string, bench: string): string {
  const inside = relative(resolve(record), resolve(bench));
  return isAbsolute(inside) ? resolve(bench) : inside.split(sep).join("/");
}

async function refuseUsedFolder(record: string): Promise<void> {
  try {
    await mkdir(record, { recursive: true });
    const names = await readdir(record);
    if (names.length === 0) return;
    const within = await readdir(join(record, "events")).catch(() => []);
    const holdsRecord = within.some((name) => EVENT_FILE.test(name));
    // What an opening that was killed left behind is no record, and nobody else's file.
    const interrupted = names.length === 1 && within.every((name) => name.endsWith(".part"));
    if (!holdsRecord && interrupted && names[0] === "events") return;
    throw new LastrinseError(
      holdsRecord ? "record-exists" : "output-exists",
      holdsRecord
        ? `Expected a new folder for the record, but ${record} already holds one.`
        : `Expected a new or empty folder for the record, but ${record} holds other files.`,
      {
        remedy: holdsRecord
          ? `Go on with it (lastrinse advise ${shellWord(record)}), or name another folder.`
          : "Name another folder.",
        input: record,
      },
    );
  } catch (error) {
    if (error instanceof LastrinseError) throw error;
    throw new LastrinseError("output-unwritable", `The record's folder ${record} can't be made.`, {
      remedy: "Name a folder in a place where you may write.",
      input: record,
      cause: error,
    });
  }
}
