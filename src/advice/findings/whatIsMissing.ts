import type { Reason } from "../advice.ts";
import type { BathState, Liquid, TreatmentState } from "../treatmentState.ts";
import { SHEET_WORDS, VERDICT_WORDS } from "../../results/adviceWords.ts";
import { type Findings, type JudgedInk, reason, sentence } from "./findings.ts";
import { lineThatAdds, volumeUnknown } from "./volumeUnknown.ts";

/** What has to be known before anything can be decided; null where nothing is open. */
export function whatIsMissing(
  state: TreatmentState,
  inks: readonly JudgedInk[],
  last: BathState | null,
): Findings | null {
  const open = [
    ...noInk(inks),
    ...untested(inks, state),
    ...(last === null ? nothingBounds(inks) : []),
    ...unreadOrUnweighed(state, last),
    ...unreadBench(state),
  ];
  if (open.length === 0) return null;
  const sheetNow = last === null ? "not-in-water" : "drain-on-support";
  return {
    verdict: "not-decidable",
    headline: VERDICT_WORDS["not-decidable"],
    sheetNow,
    sheetText: SHEET_WORDS[sheetNow],
    reasons: open.map(({ why }) => why),
    mustDo: [
      last === null
        ? "Keep the sheet dry until this is settled."
        : "Lift the sheet out on its support and let it drain while you decide.",
    ],
    wouldChangeIt: [...new Set(open.map(({ settles }) => settles))],
  };
}

/** An open question and what settles it. */
interface Open {
  readonly why: Reason;
  readonly settles: string;
}

function unreadBench({ unreadableNotes = [] }: TreatmentState): readonly Open[] {
  return unreadableNotes.map((name) => ({
    why: reason(
      "bench-unread",
      `${name} of this bench can't be read: how much more or less its covers fade than predicted is not known.`,
    ),
    settles: `${name} restored from a copy, or made anew: lastrinse after, once more, in the record it came from; or the file taken away for good.`,
  }));
}

function noInk(inks: readonly JudgedInk[]): readonly Open[] {
  if (inks.length > 0) return [];
  return [
    {
      why: reason("no-ink-named", "No ink of the cover is named yet, so none can be judged."),
      settles: "A before scan or a blotter test of each ink.",
    },
  ];
}

const CONDITIONS = [
  ["ph", "phIn", "PH"],
  ["temperatureC", "temperatureC", "C"],
  ["minutes", "minutes", "MIN"],
] as const satisfies readonly (readonly [keyof Liquid, string, string])[];

/** What the bath in question doesn't state, as lines to add it; empty where a bath in mind is judged. */
function unstated({ baths, next }: TreatmentState): readonly string[] {
  const last = baths.at(-1);
  if (last === undefined || (next !== null && next !== last)) return [];
  return CONDITIONS.flatMap(([name, setting, example]) =>
    last[name] === null
      ? [lineThatAdds(last, baths.length, last.event === null ? name : setting, example)]
      : [],
  );
}

function untested(inks: readonly JudgedInk[], state: TreatmentState): readonly Open[] {
  const lines = unstated(state);
  return inks.flatMap(({ ink, status }) =>
    status.state !== "untested"
      ? []
      : [
          {
            why: reason("ink-untested", sentence(`${ink.id} counts as untested: ${status.why}.`), {
              ink: ink.id,
            }),
            settles:
              lines.length > 0 && ink.tests.length > 0
                ? `State what the last bath was like: ${lines.join("; ")}`
                : `A blotter test of ${ink.id} in a liquid at least as strong as the bath, as warm and as long.`,
          },
        ],
  );
}

/** Before the first bath: inks of which nothing bounds what it would take. */
function nothingBounds(inks: readonly JudgedInk[]): readonly Open[] {
  return inks.flatMap(({ ink, status }): readonly Open[] => {
    if (status.state === "doubtful")
      return [
        {
          why: reason(
            "ink-doubtful",
            sentence(
              `the blotter of ${ink.id} was doubtful: nothing bounds what a first bath would take.`,
            ),
            { ink: ink.id },
          ),
          settles: `A longer blotter test of ${ink.id} that stays clean; or, at your own risk, a first bath of two minutes and its jar photo.`,
        },
      ];
    if (status.state !== "fast" || ink.fade !== null) return [];
    return [
      {
        why: reason(
          "fade-not-predicted",
          sentence(
            `${ink.id} was fast, but its colour on the cover is not known: what a stain too faint to see would cost can't be said.`,
          ),
          { ink: ink.id },
        ),
        settles: `A before scan that shows ${ink.id}.`,
      },
    ];
  });
}

function unreadOrUnweighed({ baths }: TreatmentState, last: BathState | null): readonly Open[] {
  const volume = volumeUnknown(baths);
  const unread: readonly Open[] =
    last === null || last.usable
      ? []
      : [
          {
            why: reason(
              "no-usable-bath",
              baths.some(({ usable }) => usable)
                ? "The last bath has no photo that can be trusted, so what it took is not known."
                : "No bath has a photo that can be trusted, so what came out is not known.",
            ),
            settles:
              "A fresh jar photo of the last bath beside its blank. Too dark for the jar: thin one part with three parts of blank and say so.",
          },
        ];
  return volume === null
    ? unread
    : [...unread, { why: volume, settles: "The volume of every bath, as the reason says." }];
}
