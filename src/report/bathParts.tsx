import type { ComponentChildren, VNode } from "preact";
import type { BathView, TreatmentView } from "../record/treatmentView.ts";
import { DataTable, type Row } from "./dataTable.tsx";
import { figure, percentRange, withRange } from "./figures.ts";
import { commonTop, IntervalPanel, type PanelPoint } from "./intervalPanel.tsx";
import { Section } from "./page.tsx";
import { dataUri } from "./pagePictures.ts";
import { Ranged } from "./ranged.tsx";
import { timeOf } from "./dates.ts";
import { surfactantWords } from "./surfactantWords.ts";
import { Written } from "./text.tsx";
import { UpTo } from "./upTo.tsx";

const PER_CM = 4;

/** "Bath 2, wash with surfactant". */
export function bathWords({ settings: { kind, surfactant } }: BathView, i: number): string {
  const held = surfactantWords(surfactant);
  const words = surfactant === false ? "" : surfactant === true ? ` ${held}` : `, ${held}`;
  return `Bath ${String(i + 1)}, ${kind}${words}`;
}

/** One jar's absorbance band by band, with what the share of ink is. */
function Jar({ bath, i }: { readonly bath: BathView; readonly i: number }): VNode {
  const { jar, refused, inkShare, settings, spentPhoto } = bath;
  const name = bathWords(bath, i);
  return (
    <li class="jar">
      <h3>{name}</h3>
      {spentPhoto === null ? (
        <p class="no-photo">{bath.hasPhoto ? "photo not at hand" : "no photo"}</p>
      ) : (
        <img
          src={dataUri("jpeg", spentPhoto)}
          alt={`Jar with the spent liquid of bath ${String(i + 1)}`}
        />
      )}
      <p class="soft">
        {figure(settings.minutes, 0)}
        {settings.minutes === null ? "" : " min"}, {figure(settings.temperatureC, 0)}
        {settings.temperatureC === null ? "" : " °C"}
      </p>
      {refused === null ? null : (
        <p class="note">
          Photo refused: {refused.message} {refused.remedy}
        </p>
      )}
      {jar === null ? null : (
        <dl>
          <dt>Absorbance per cm (red, green, blue light)</dt>
          <dd class="figure">{jar.absorbancePerCm.map((value) => figure(value, 3)).join(" / ")}</dd>
          <dt>Turbidity</dt>
          <dd>{turbidityWords(jar)}</dd>
          <dt>Share of ink in the colour</dt>
          <dd>{shareWords(inkShare)}</dd>
        </dl>
      )}
    </li>
  );
}

function turbidityWords({
  turbidityFnu,
  turbidityFnuSigma,
  turbidityIndexPerCm,
  turbidityIndexSigma,
  turbidityBeyondRange,
}: NonNullable<BathView["jar"]>): string {
  const more = turbidityBeyondRange ? "more than " : "";
  return turbidityFnu === null
    ? `index ${more}${figure(turbidityIndexPerCm, 4)} ± ${figure(turbidityIndexSigma, 4)} per cm`
    : `${more}${figure(turbidityFnu, 0)} ± ${figure(turbidityFnuSigma, 0)} FNU`;
}

function shareWords(inkShare: BathView["inkShare"]): string {
  if (inkShare === null) return "not known";
  const { word, likely, possible, condition } = inkShare;
  return `${word}: ${likely === null ? "" : `likely ${percentRange(likely)}, `}possible ${percentRange(possible)}, ${condition}`;
}

/** The jars in the order of the baths, and everything read from them. */
export function JarsPart({ baths }: TreatmentView): VNode | null {
  if (baths.length === 0) return null;
  const blank = baths.find(({ blankPhoto }) => blankPhoto !== null)?.blankPhoto ?? null;
  return (
    <Section title="The jars in order">
      <ul class="jars">
        {blank === null ? null : (
          <li class="jar">
            <h3>Blank</h3>
            <img src={dataUri("jpeg", blank)} alt="Jar with fresh liquid" />
            <p class="soft">fresh liquid, what the others are compared with</p>
          </li>
        )}
        {baths.map((bath, i) => (
          <Jar bath={bath} i={i} />
        ))}
      </ul>
      <DataTable
        name="Readings of the jars"
        caption="Absorbance is decadic, per cm of liquid, above the blank, scattering taken off; ± is one standard deviation."
        columns={[
          { head: "Bath" },
          { head: "Red light", number: true },
          { head: "Green light", number: true },
          { head: "Blue light", number: true },
          { head: "Turbidity" },
          { head: "Share of ink in the colour", wide: true },
        ]}
        rows={baths.map((bath, i): Row => {
          const { jar } = bath;
          const band = (c: number): string =>
            jar === null
              ? "not measured"
              : `${figure(jar.absorbancePerCm[c], PER_CM)}\u00a0±\u00a0${figure(jar.absorbanceSigma[c], PER_CM)}`;
          return {
            head: bathWords(bath, i),
            cells: [
              band(0),
              band(1),
              band(2),
              jar === null ? "not measured" : turbidityWords(jar),
              shareWords(bath.inkShare),
            ],
          };
        })}
      />
    </Section>
  );
}

/** How each colourant washed out, bath after bath, and what the next bath would bring. */
export function WashoutPart({ baths, nextBath }: TreatmentView): VNode | null {
  const ids = [...new Set(baths.flatMap(({ components }) => Object.keys(components ?? {})))];
  if (ids.length === 0) return null;
  const rows: Row[] = [];
  const panels = ids.map((id) => {
    const points: PanelPoint[] = baths.map(({ components }, i) => ({
      label: String(i + 1),
      range: components?.[id] ?? null,
    }));
    const next = nextBath?.[id] ?? null;
    if (next !== null) points.push({ label: "next", range: next, forecast: true });
    rows.push({
      head: id,
      cells: [
        ...baths.map(({ components }) =>
          tripletCell(components?.[id] ?? null, "not measured", PER_CM),
        ),
        ...(nextBath === null ? [] : [tripletCell(next, "not predicted", PER_CM)]),
      ],
    });
    return { id, points, next };
  });
  return (
    <Section title="Washout">
      <p>
        What each bath held, as peak absorbance per cm, with its 90 % range.
        {nextBath === null
          ? " "
          : " The open mark is what one more bath like the last would bring. "}
        Each chart has its own scale.
      </p>
      <div class="panels">
        {panels.map(({ id, points, next }) => (
          <IntervalPanel
            title={id}
            unit="per cm"
            axis="bath"
            points={points}
            top={commonTop([points])}
            says={`${points
              .map(
                ({ label, range }) =>
                  `${label === "next" ? "Next bath" : `Bath ${label}`}: ${triplet(range)}`,
              )
              .join(
                "; ",
              )}.${nextBath !== null && next === null ? " The next bath is not predicted." : ""}`}
          />
        ))}
      </div>
      <DataTable
        name="Washout"
        caption="Peak absorbance per cm: middle, with its 90 % range."
        columns={[
          { head: "What" },
          ...baths.map((_, i) => ({ head: `Bath ${String(i + 1)}`, number: true })),
          ...(nextBath === null ? [] : [{ head: "Next bath", number: true }]),
        ]}
        rows={rows}
      />
    </Section>
  );
}

function triplet(
  range: readonly [number, number, number] | null,
  missing = "not measured",
  digits = PER_CM,
): string {
  return range === null ? missing : withRange(range[1], range[0], range[2], digits);
}

function tripletCell(
  range: readonly [number, number, number] | null,
  missing: string,
  digits: number,
): ComponentChildren {
  return range === null ? (
    missing
  ) : (
    <Ranged value={range[1]} low={range[0]} high={range[2]} digits={digits} />
  );
}

/** Predicted fade of each ink after each bath, against the user's limit. */
export function FadeCourse({ baths, limits }: TreatmentView): VNode {
  const ids = [
    ...new Set(
      baths.flatMap(({ fadeSoFar }) =>
        Object.keys(fadeSoFar).filter((id) => fadeSoFar[id] !== null),
      ),
    ),
  ];
  if (ids.length === 0)
    return (
      <p>
        The fade could not be predicted: this needs a before scan with a card, and baths whose
        photos were read.
      </p>
    );
  const panels = ids.map((id) => ({
    id,
    points: baths.map(({ fadeSoFar }, i): PanelPoint => ({
      label: String(i + 1),
      range: fadeSoFar[id] ?? null,
    })),
  }));
  const top = commonTop(
    panels.map(({ points }) => points),
    1.1 * limits.maxDeltaE00,
  );
  return (
    <>
      <p>
        Predicted fade, all baths up to each one together: the whole 90 % range, with a mark in its
        middle only where it is narrow enough to have one. The dashed line is your limit of{" "}
        {figure(limits.maxDeltaE00, 1)} dE00. All charts share one scale.
      </p>
      <div class="panels">
        {panels.map(({ id, points }) => (
          <IntervalPanel
            title={id}
            unit="dE00"
            axis="after bath"
            points={points}
            top={top}
            limit={{ value: limits.maxDeltaE00, text: "your limit" }}
            says={`Predicted fade against a limit of ${figure(limits.maxDeltaE00, 1)} dE00. ${points
              .map(
                ({ label, range }) =>
                  `After bath ${label}: ${range === null ? "not predicted" : `up to ${figure(range[2])} (from ${figure(range[0])})`}`,
              )
              .join("; ")}.`}
          />
        ))}
      </div>
      <DataTable
        name="Predicted fade after each bath"
        caption="dE00: upper end of the 90 % range, then the lower."
        columns={[
          { head: "Ink" },
          ...baths.map((_, i) => ({ head: `After bath ${String(i + 1)}`, number: true })),
        ]}
        rows={panels.map(({ id, points }) => ({
          head: id,
          cells: points.map(({ range }) =>
            range === null ? "not predicted" : <UpTo low={range[0]} high={range[2]} />,
          ),
        }))}
      />
    </>
  );
}

function yesNo(held: boolean | null): string {
  if (held === null) return "not stated";
  return held ? "yes" : "no";
}

/** Conditions of every bath; what was taken over from an earlier one is marked. */
export function ConditionsTable({ baths }: TreatmentView): VNode | null {
  if (baths.length === 0) return <p>No bath is in the record.</p>;
  const cell = (bath: BathView, name: keyof BathView["settings"], text: ComponentChildren) => (
    <>
      {text}
      {bath.settings.repeated.includes(name) ? <span class="mark-repeated"> repeated</span> : null}
    </>
  );
  const value = (number: number | null, digits: number): string =>
    number === null ? "not stated" : figure(number, digits);
  const written = (text: string | null) => (text === null ? "not stated" : <Written text={text} />);
  return (
    <DataTable
      name="Conditions of the baths"
      caption="Marked repeated: left out at the tray, so taken over from the last bath of that kind; repeated, not confirmed."
      columns={[
        { head: "Bath" },
        { head: "Recorded" },
        { head: "Composition" },
        { head: "Surfactant" },
        { head: "pH in", number: true },
        { head: "pH out", number: true },
        { head: "°C", number: true },
        { head: "mL", number: true },
        { head: "min", number: true },
        { head: "Moved, foam, note", wide: true },
      ]}
      rows={baths.map((bath, i) => {
        const { settings } = bath;
        return {
          head: cell(bath, "kind", `${String(i + 1)}, ${settings.kind}`),
          cells: [
            timeOf(bath.at),
            cell(bath, "composition", written(settings.composition)),
            cell(bath, "surfactant", yesNo(settings.surfactant)),
            cell(bath, "phIn", value(settings.phIn, 1)),
            value(settings.phOut, 1),
            cell(bath, "temperatureC", value(settings.temperatureC, 0)),
            cell(bath, "volumeMl", value(settings.volumeMl, 0)),
            cell(bath, "minutes", value(settings.minutes, 1)),
            <>
              {settings.agitation === null ? null : (
                <div>moved: {cell(bath, "agitation", <Written text={settings.agitation} />)}</div>
              )}
              <div>foam: {settings.foam ?? "not stated"}</div>
              {settings.note === null ? null : (
                <div>
                  <Written text={settings.note} />
                </div>
              )}
            </>,
          ],
        };
      })}
    />
  );
}
