import type { CompareResult } from "../results/compareResult.ts";
import { plateSentence, platesNamed } from "../results/plateWords.ts";
import type { ComponentChildren, VNode } from "preact";
import type { RecordEvent, Settings } from "../record/event.ts";
import type { Side } from "../record/treatment.ts";
import type { BathView, TreatmentView } from "../record/treatmentView.ts";
import { dayOf, timeOf } from "./dates.ts";
import { figure, listOf, percent, withRange } from "./figures.ts";
import { Section } from "./page.tsx";
import { SIDE_WORDS } from "./sideWords.ts";
import { surfactantWords } from "./surfactantWords.ts";
import { Written } from "./text.tsx";

/** "25 November 2026", or several days. */
export function washedOn({ baths }: TreatmentView): string | null {
  const days = [...new Set(baths.map(({ at }) => at.slice(0, 10)))];
  return days.length === 0 ? null : listOf(days.map(dayOf));
}

/** The report's first line. */
export function disclosure(view: TreatmentView): string {
  const day = washedOn(view);
  return `Washed in water ${day === null ? "on a day that the record does not state" : `on ${day}`}. Disclose at sale, loan or grading.`;
}

const NAMES: Readonly<Record<string, string>> = {
  phIn: "pH",
  temperatureC: "temperature",
  volumeMl: "volume",
  minutes: "time",
  kind: "purpose",
};

/** A bath that was taken against the advice that stood before it. */
function overridden({ adviceBefore, settings }: BathView, i: number): string[] {
  const { verdict, headline, sheetNow } = adviceBefore;
  if (verdict === "continue") return [];
  // A plain bath was asked for, after surfactant or as the last one.
  if (sheetNow === "in-rinse" && settings.surfactant === false) return [];
  return [
    verdict === "stop"
      ? `Bath ${String(i + 1)} was taken after "stop". The advice before it: ${headline}.`
      : `Bath ${String(i + 1)} was taken against the advice before it: ${headline}.`,
  ];
}

/** What differs from a record in which everything was stated, photographed and left alone. */
export function deviationsOf(view: TreatmentView): string[] {
  const { baths, blots, events, comparisons, warnings, scannedBefore, scannedAfter } = view;
  const amended = events.filter(({ kind }) => kind === "amended").length;
  const unscanned = scannedBefore.filter((side) => !scannedAfter.includes(side));
  return [
    ...(amended === 0
      ? []
      : [
          `${String(amended)} later ${amended === 1 ? "correction" : "corrections"} to the record; see the record of steps.`,
        ]),
    ...baths.flatMap(({ settings }, i) =>
      settings.repeated.length === 0
        ? []
        : [
            `Bath ${String(i + 1)}: ${listOf(settings.repeated.map((name) => NAMES[name] ?? name))} repeated from the last bath, not confirmed.`,
          ],
    ),
    ...baths.flatMap(overridden),
    ...movedLimits(events),
    ...(view.kind === "final" ? aroundTheScan(events) : []),
    ...baths.flatMap(({ refused, hasPhoto }, i) =>
      refused !== null
        ? [`Bath ${String(i + 1)}: photo refused. ${refused.message}`]
        : hasPhoto
          ? []
          : [`Bath ${String(i + 1)}: no photo.`],
    ),
    ...blots.flatMap(({ refused, settings }) =>
      refused === null
        ? []
        : [`Blotter test of ${settings.ink}: photo refused. ${refused.message}`],
    ),
    ...(view.kind === "final" && unscanned.length > 0
      ? [
          `Not scanned again after washing: ${unscanned.map((side) => SIDE_WORDS[side]).join(", ")}.`,
        ]
      : []),
    ...comparisons.flatMap(({ refused, side }) =>
      refused === null ? [] : [`No figures for the ${SIDE_WORDS[side]}. ${refused.message}`],
    ),
    // Where a file stands now is a note; a hole in what was written is not.
    ...(warnings.some(({ code }) => code === "event-damaged")
      ? ["The record is not whole: an event of it can't be read; see the notes."]
      : []),
  ];
}

/** A limit that was moved when the treatment was under way is not the one that was agreed. */
function movedLimits(events: readonly RecordEvent[]): string[] {
  const opened = events.find((event) => event.kind === "opened");
  if (opened === undefined) return [];
  let baths = 0;
  return events.flatMap((event) => {
    if (event.kind === "bath") baths++;
    if (event.kind !== "amended" || event.settings.event !== opened.id) return [];
    const { limits } = event.settings.changes as Partial<Settings<"opened">>;
    if (limits === undefined) return [];
    const was = opened.settings.limits;
    return [
      `The limit was moved ${baths === 0 ? "before the first bath" : `after bath ${String(baths)}`}: agreed at opening were ${figure(was.maxDeltaE00, 1)} dE00 at a risk of ${percent(was.risk)}, then ${figure(limits.maxDeltaE00, 1)} dE00 at ${percent(limits.risk)}.`,
    ];
  });
}

/** A dry scan without a bath before it, or with one after it, measures something else than the washing. */
function aroundTheScan(events: readonly RecordEvent[]): string[] {
  const scanned = events.findLastIndex((event) => event.kind === "after");
  const after = events.slice(scanned + 1).filter(({ kind }) => kind === "bath").length;
  const before = events.slice(0, Math.max(0, scanned)).some(({ kind }) => kind === "bath");
  return [
    ...(before ? [] : ["No bath is recorded before the washed sheet was scanned."]),
    ...(after === 0
      ? []
      : [
          `${String(after)} ${after === 1 ? "bath was" : "baths were"} taken after the last dry scan: what came of that is in none of the measured figures.`,
        ]),
  ];
}

/** "bath 1", "baths 1 and 3". */
function bathList(names: readonly string[]): string {
  return `${names.length === 1 ? "bath" : "baths"} ${listOf(names)}`;
}

function named({ baths }: TreatmentView) {
  return baths.map(({ settings }, i) => ({ ...settings, name: String(i + 1) }));
}

/** Which baths held surfactant, which did not, and of which nobody said. */
function surfactantOf(view: TreatmentView): string {
  const of = (held: boolean | null) =>
    named(view).flatMap(({ surfactant, name }) => (surfactant === held ? [name] : []));
  const [soapy, unknown] = [of(true), of(null)];
  return [
    soapy.length > 0
      ? `Surfactant: in ${bathList(soapy)}.`
      : unknown.length > 0
        ? ""
        : "Surfactant: none.",
    unknown.length > 0 ? `Surfactant not stated: ${bathList(unknown)}.` : "",
  ]
    .filter((text) => text !== "")
    .join(" ");
}

/** From this pH on a bath is called alkaline. */
const ALKALINE_PH = 7.5;

/** Which baths were alkaline, with their pH, and of which nobody said. */
function alkaliOf(view: TreatmentView): string {
  const baths = named(view);
  const alkaline = baths.flatMap(({ phIn, name }) =>
    phIn !== null && phIn >= ALKALINE_PH ? [`${name} (pH ${figure(phIn, 1)})`] : [],
  );
  const unknown = baths.flatMap(({ phIn, name }) => (phIn === null ? [name] : []));
  return [
    alkaline.length > 0
      ? `Alkali: in ${bathList(alkaline)}.`
      : unknown.length > 0
        ? ""
        : "Alkali: none.",
    unknown.length > 0 ? `pH not stated: ${bathList(unknown)}.` : "",
  ]
    .filter((text) => text !== "")
    .join(" ");
}

function added(view: TreatmentView): ComponentChildren {
  const { baths } = view;
  const wet = named(view);
  const texts = [...new Set(wet.flatMap(({ composition }) => composition ?? []))];
  const unnamed = wet.flatMap(({ composition, name }) => (composition === null ? [name] : []));
  if (baths.length === 0) return "Nothing is recorded.";
  return (
    <>
      Water, in {String(baths.length)} {baths.length === 1 ? "bath" : "baths"}.{" "}
      {texts.length === 0 ? "" : "Made of: "}
      {texts.map((text, i) => (
        <>
          {i === 0 ? "" : "; "}
          <Written text={text} /> (
          {bathList(wet.flatMap(({ composition, name }) => (composition === text ? [name] : [])))})
        </>
      ))}
      {texts.length === 0 ? "" : ". "}
      {unnamed.length === 0 ? "" : `What ${bathList(unnamed)} held is not named. `}
      {surfactantOf(view)} {alkaliOf(view)}
    </>
  );
}

function left(view: TreatmentView): string {
  const { baths } = view;
  if (baths.length === 0) return "Nothing is recorded.";
  // What nobody stated to be plain may have held some.
  const last = baths.findLastIndex(({ settings }) => settings.surfactant !== false);
  const plain = baths.length - 1 - last;
  const unstated = last >= 0 && baths[last].settings.surfactant !== true;
  const surfactant =
    last < 0
      ? "No surfactant was used."
      : plain === 0
        ? unstated
          ? "Nobody stated whether the last bath held surfactant: some may be left in."
          : "The last bath held surfactant: surfactant was left in."
        : `After the last bath with surfactant${unstated ? " (not stated, so counted as one)" : ""} came ${String(plain)} plain ${plain === 1 ? "bath" : "baths"} (without surfactant); a trace may be left.`;
  const lastPh = baths[baths.length - 1].settings.phIn;
  const alkali =
    lastPh === null
      ? "The pH of the last bath is not stated: whether alkali is left in the paper is not known."
      : lastPh >= ALKALINE_PH
        ? `The last bath had pH ${figure(lastPh, 1)}: its alkali is left in the paper; how much was not measured.`
        : `The last bath had pH ${figure(lastPh, 1)}: little alkali is left in the paper; it was not measured.`;
  return `${surfactant} ${alkali}`;
}

/** The losses that a comparison shows: of the printing inks where they were told apart, else of the listed colours. */
function lossesOf({ inks, plates }: CompareResult): string[] {
  if (plates !== null && plates !== undefined)
    return plates.filter(({ verdict }) => verdict === "lost").map(plateSentence);
  return inks
    .filter(({ verdict }) => verdict === "ink-lost")
    .map(
      ({ id, inkPartDeltaE00, inkPartLow, inkPartHigh }) =>
        `${id} ${withRange(inkPartDeltaE00, inkPartLow, inkPartHigh)} dE00`,
    );
}

/** What of a comparison could not be judged: of the printing inks where they were told apart, else of the listed colours. */
function openOf({ inks, plates }: CompareResult): readonly string[] {
  if (plates !== null && plates !== undefined) return platesNamed(plates, "uncertain");
  return inks
    .filter(({ verdict, inkPartDeltaE00 }) => verdict === "uncertain" || inkPartDeltaE00 === null)
    .map(({ id }) => id);
}

/** What the dry scans show: losses, what could not be judged, and "no loss is shown" only where something could. */
function measuredDry(
  compared: readonly { readonly side: Side; readonly result: CompareResult }[],
): string {
  const named = (of: (result: CompareResult) => readonly string[]): string[] =>
    compared.flatMap(({ side, result }) =>
      of(result).map((text) => `${text}${side === "front" ? "" : ` (${SIDE_WORDS[side]})`}`),
    );
  const lost = named(lossesOf);
  const open = named(openOf);
  const judged = named(({ inks, plates }) => (plates ?? inks).map(({ id }) => id)).length;
  return [
    lost.length > 0
      ? `Measured dry, loss of ink with its interval: ${lost.join("; ")}.`
      : open.length < judged
        ? "Measured dry: no loss of ink is shown."
        : "Scanned dry, but no ink could be judged.",
    ...(open.length === 0 ? [] : [`Whether ink was lost is not known of ${listOf(open)}.`]),
  ].join(" ");
}

/** Measured before predicted: what the dry scan shows goes first. */
function removed({ baths, fade, comparisons, advice }: TreatmentView): string {
  const read = baths.filter(({ jar }) => jar !== null).length;
  const scanned = comparisons.flatMap(({ side, stage, compared }) =>
    compared === null || stage !== "washed" ? [] : [{ side, result: compared.result }],
  );
  const predicted = Object.entries(fade).flatMap(([id, one]) =>
    one === null ? [] : [`${id} up to ${figure(one.high)} (from ${figure(one.low)})`],
  );
  return [
    scanned.length > 0
      ? measuredDry(scanned)
      : "Loss of ink was not measured: no washed, dry scan could be compared.",
    read === 0
      ? "Soluble matter; none of the spent baths was measured."
      : `Soluble matter that coloured the baths, read from ${String(read)} of ${String(baths.length)}.`,
    predicted.length === 0
      ? ""
      : `Predicted from the baths, fade in dE00 (90 %): ${predicted.join(", ")}.`,
    advice.notShown.length === 0
      ? ""
      : `Not measurable from the bath, because the colour can change where it stands: ${listOf(advice.notShown)}.`,
  ]
    .filter((text) => text !== "")
    .join(" ");
}

/** The statement of treatment: what an owner, a buyer or a grader has to know. */
export function StatementPart({ view }: { readonly view: TreatmentView }): VNode {
  const { object, limits, baths, events } = view;
  const deviations = deviationsOf(view);
  const steps = events.filter((event) => event.kind === "step");
  const rows: readonly (readonly [string, ComponentChildren])[] = [
    ["Object", object === null ? "not described" : <Written text={object} />],
    [
      "Consent and agreed limit",
      `${object === null ? "Consent is not stated. " : "Consent: as far as it stands under Object. "}Limit set in the record: ${figure(limits.maxDeltaE00, 1)} dE00 of fade for each ink, at a risk of at most ${percent(limits.risk)}.`,
    ],
    [
      "Baths",
      baths.length === 0 ? (
        "None is recorded."
      ) : (
        <ol>
          {baths.map(({ at, settings }) => (
            <li>
              {timeOf(at)}: {settings.kind}, {surfactantWords(settings.surfactant)}
              {settings.minutes === null ? "" : `, ${figure(settings.minutes, 0)} min`}
              {settings.temperatureC === null ? "" : `, ${figure(settings.temperatureC, 0)} °C`}
              {settings.phIn === null ? ", pH not stated" : `, pH ${figure(settings.phIn, 1)}`}
              {settings.composition === null ? null : (
                <>
                  : <Written text={settings.composition} />
                </>
              )}
            </li>
          ))}
        </ol>
      ),
    ],
    [
      "Other steps",
      steps.length === 0 ? (
        "None is recorded."
      ) : (
        <ol>
          {steps.map(({ at, settings }) => (
            <li>
              {timeOf(at)}:{" "}
              {settings.bleed === null ? null : (
                <>
                  seen to bleed: <Written text={settings.bleed} />
                  {settings.what === "" ? "" : ". "}
                </>
              )}
              <Written text={settings.what} />
            </li>
          ))}
        </ol>
      ),
    ],
    ["Added", added(view)],
    ["Left in", left(view)],
    ["Removed", removed(view)],
    [
      "Deviations",
      deviations.length === 0 ? (
        "None is recorded."
      ) : (
        <ul>
          {deviations.map((line) => (
            <li>{line}</li>
          ))}
        </ul>
      ),
    ],
  ];
  return (
    <Section title="Statement of treatment">
      <dl class="statement">
        {rows.map(([name, text]) => (
          <div>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <p>
        <strong>Not a condition grade, authentication or valuation.</strong> Washing cannot be
        undone.
      </p>
    </Section>
  );
}
