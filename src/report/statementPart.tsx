import type { ComponentChildren, VNode } from "preact";
import type { TreatmentView } from "../record/treatmentView.ts";
import { dayOf, timeOf } from "./dates.ts";
import { figure, listOf, percent } from "./figures.ts";
import { Section } from "./page.tsx";
import { SIDE_WORDS } from "./sideWords.ts";
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
    ...warnings
      .filter(
        ({ code }) =>
          code === "event-damaged" || code === "input-missing" || code === "input-changed",
      )
      .map(({ message }) => message),
  ];
}

function added({ baths }: TreatmentView): ComponentChildren {
  const wet = baths.map(({ settings }, i) => ({ ...settings, name: String(i + 1) }));
  const texts = [...new Set(wet.flatMap(({ composition }) => composition ?? []))];
  const soapy = wet.filter(({ surfactant }) => surfactant).map(({ name }) => name);
  return (
    <>
      Water
      {wet.length === 0
        ? ""
        : `, in ${String(wet.length)} ${wet.length === 1 ? "bath" : "baths"}`}.{" "}
      {texts.length === 0 ? "What the baths were made of is not stated. " : "Made of: "}
      {texts.map((text, i) => (
        <>
          {i === 0 ? "" : "; "}
          <Written text={text} />
        </>
      ))}
      {texts.length === 0 ? "" : ". "}
      {soapy.length === 0
        ? "No surfactant is recorded."
        : `Surfactant in ${soapy.length === 1 ? "bath" : "baths"} ${listOf(soapy)}.`}
    </>
  );
}

function left({ baths }: TreatmentView): string {
  const last = baths.findLastIndex(({ settings }) => settings.surfactant);
  const rinses = last < 0 ? 0 : baths.length - 1 - last;
  const surfactant =
    last < 0
      ? ""
      : rinses === 0
        ? "The last bath held surfactant: surfactant was left in. "
        : `After the last bath with surfactant came ${String(rinses)} ${rinses === 1 ? "bath" : "baths"} without; a trace may be left. `;
  return `${surfactant}Alkali from the baths may be left in the paper; it was not measured.`;
}

function removed({ baths, fade }: TreatmentView): string {
  const read = baths.filter(({ jar }) => jar !== null).length;
  const inks = Object.entries(fade).flatMap(([id, one]) =>
    one === null ? [] : [`${id} ${figure(one.mid)} (${figure(one.low)} to ${figure(one.high)})`],
  );
  return `${
    read === 0
      ? "Soluble matter; none of the spent baths was measured."
      : `Soluble matter that coloured the baths, read from ${String(read)} of ${String(baths.length)}.`
  }${inks.length === 0 ? "" : ` Fade predicted from the baths, dE00: ${inks.join(", ")}.`}`;
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
              {timeOf(at)}: {settings.kind}
              {settings.surfactant ? " with surfactant" : ""}
              {settings.minutes === null ? "" : `, ${figure(settings.minutes, 0)} min`}
              {settings.temperatureC === null ? "" : `, ${figure(settings.temperatureC, 0)} °C`}
              {settings.phIn === null ? "" : `, pH ${figure(settings.phIn, 1)}`}
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
