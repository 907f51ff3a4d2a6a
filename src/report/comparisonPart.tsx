import type { VNode } from "preact";
import type { CompareResult } from "../results/compareResult.ts";
import { inkWords, PAPER_WORDS } from "../results/compareWords.ts";
import { plateSentence, platesNamed } from "../results/plateWords.ts";
import { DataTable } from "./dataTable.tsx";
import { between, figure, listOf, percent, signed } from "./figures.ts";
import { HeatMapLegend } from "./heatMapLegend.tsx";
import { Section } from "./page.tsx";
import type { PagePictures } from "./pagePictures.ts";
import { Ranged } from "./ranged.tsx";
import { UpTo } from "./upTo.tsx";
import { READING_SCALE, readingWords } from "./readingScale.ts";
import { Swatches } from "./swatches.tsx";

/** Below this nothing of the kind was found: the shown digit would be 0. */
const LEAST_DULLING = 0.05;

interface PartProps {
  readonly result: CompareResult;
  /** Names this comparison among those of the page; letters and hyphens. */
  readonly id: string;
  /** Added to headings where a page has several comparisons, such as " (back)". */
  readonly suffix: string;
}

/** What a comparison shows, in a sentence or two. */
export function comparisonSummary({ inks, paper, plates, warnings }: CompareResult): string {
  const named = (verdict: string): string[] =>
    inks.filter((ink) => ink.verdict === verdict).map(({ id }) => id);
  const lost = named("ink-lost");
  const changed = named("changed");
  const unsure = named("uncertain");
  return [
    ...(warnings.some(({ code }) => code === "order-swapped")
      ? ["The scans may be the wrong way round: check which one is from before the washing."]
      : []),
    ...(plates === null || plates === undefined
      ? [
          lost.length === 0
            ? "No loss of ink is shown above the floor."
            : `Loss of ink is shown in ${listOf(lost)}.`,
        ]
      : lossOfPlates(plates)),
    ...(changed.length === 0
      ? []
      : [`Changed, but not shown to be loss of ink: ${listOf(changed)}.`]),
    ...(unsure.length === 0 ? [] : [`Too uncertain to judge: ${listOf(unsure)}.`]),
    paper === null
      ? "The paper was not measured."
      : `Paper: ${PAPER_WORDS[paper.verdict].replace(/^paper /, "")}.`,
  ].join(" ");
}

/** Where the printing inks were told apart they alone speak of loss. */
function lossOfPlates(plates: NonNullable<CompareResult["plates"]>): string[] {
  const open = platesNamed(plates, "uncertain");
  const lost = plates.filter(({ verdict }) => verdict === "lost");
  return [
    lost.length === 0
      ? "No loss of a printing ink is shown."
      : `Loss of ink is shown: ${lost.map(plateSentence).join("; ")}.`,
    ...(open.length === 0 ? [] : [`Loss is not known of ${listOf(open)}.`]),
  ];
}

/** Before, after and difference side by side, with outlines and damage marked on request, and a slider. */
export function PicturesPart({
  result,
  pictures,
  id,
  suffix,
}: PartProps & { readonly pictures: PagePictures }): VNode {
  const { widthPixels, heightPixels } = result.before;
  const summary = comparisonSummary(result);
  const { tideLines, bleeds } = result.damage;
  const marks = [
    ...tideLines.map(({ boxPixels }, i) => ({ boxPixels, name: `T${String(i + 1)}` })),
    ...bleeds.map(({ boxPixels }, i) => ({ boxPixels, name: `B${String(i + 1)}` })),
  ];
  const overlays = (where: string) => (
    <svg
      class="overlay"
      viewBox={`0 0 ${String(widthPixels)} ${String(heightPixels)}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      {pictures.outlines.map(({ label, uri }) =>
        where === "before" ? (
          <g class={`part ${id}-ink-${String(label)}`}>
            <image
              id={`${id}-outline-${String(label)}`}
              href={uri}
              width={widthPixels}
              height={heightPixels}
              preserveAspectRatio="none"
            />
          </g>
        ) : (
          <g class={`part ${id}-ink-${String(label)}`}>
            <use href={`#${id}-outline-${String(label)}`} />
          </g>
        ),
      )}
      <g class={`marks ${id}-damage`}>
        {marks.map(({ boxPixels: [x, y, width, height], name }) => (
          <g>
            <rect class="mark-case" x={x} y={y} width={width} height={height} />
            <rect class="mark" x={x} y={y} width={width} height={height} />
            <text x={x} y={y - 0.006 * heightPixels} font-size={0.022 * heightPixels}>
              {name}
            </text>
          </g>
        ))}
      </g>
    </svg>
  );
  const framed = (
    where: "before" | "after" | "difference" | "inkPart",
    alt: string,
    caption: string,
  ) => (
    <figure>
      <div class="framed">
        <img
          id={`${id}-${where}`}
          src={pictures[where] ?? undefined}
          width={pictures.widthPixels}
          height={pictures.heightPixels}
          alt={alt}
        />
        {overlays(where)}
      </div>
      <figcaption>{caption}</figcaption>
    </figure>
  );
  return (
    <Section title={`Before, after and difference${suffix}`}>
      <div class="pictures">
        {framed("before", "The sheet before washing, with its card", "Before")}
        {framed(
          "after",
          "The sheet after washing, laid over the before scan",
          "After, laid over the before scan",
        )}
        {framed("difference", `Difference map. ${summary}`, "Difference")}
        {pictures.inkPart === null
          ? null
          : framed(
              "inkPart",
              "Map of what the paper's own change does not explain, on printed places",
              "What the paper's own change does not explain: ink that may be gone",
            )}
      </div>
      {pictures.inkPart === null ? (
        <p>
          There is no map of the ink part: the bare paper could not be measured, so what the paper
          explains is not known.
        </p>
      ) : null}
      <HeatMapLegend />
      <fieldset class="only-scripted">
        <legend>Show in the pictures</legend>
        {marks.length === 0 ? null : (
          <label>
            <input type="checkbox" checked data-part={`${id}-damage`} /> places of damage
          </label>
        )}
        {result.inks.map(({ id: ink, label }) => (
          <label>
            <input type="checkbox" data-part={`${id}-ink-${String(label)}`} /> outline of {ink}
          </label>
        ))}
      </fieldset>
      <details class="only-scripted">
        <summary>Lay one over the other</summary>
        <div class="slider" data-pair={id}>
          <label for={`${id}-range`}>Move from after to before (arrow keys work)</label>
          <input
            id={`${id}-range`}
            type="range"
            min="0"
            max="100"
            value="50"
            aria-valuetext="left 50 % before, the rest after"
          />
          <div class="stage" />
        </div>
      </details>
    </Section>
  );
}

/** Tide lines and bleeds with their places. */
export function DamagePart({ result, suffix }: PartProps): VNode {
  const { tideLines, bleeds, dullBlacks } = result.damage;
  const { widthPixels, heightPixels, dpi } = result.before;
  const place = ([x, y, width, height]: readonly [number, number, number, number]): string =>
    `${figure((100 * (x + width / 2)) / widthPixels, 0)} % from the left, ${figure((100 * (y + height / 2)) / heightPixels, 0)} % from the top of the scan${dpi === null ? "" : `, ${figure((width / dpi) * 25.4, 0)} x ${figure((height / dpi) * 25.4, 0)} mm`}`;
  const rows = [
    ...tideLines.map(({ boxPixels, widthMm, deltaB }, i) => ({
      head: `T${String(i + 1)}`,
      cells: [
        "tide line",
        place(boxPixels),
        `${figure(widthMm, 1)} mm wide, b* ${signed(deltaB, 1)} along it`,
      ],
    })),
    ...bleeds.map(({ ink, boxPixels, reachMm }, i) => ({
      head: `B${String(i + 1)}`,
      cells: [
        `${ink}: bleed past the printed edge`,
        place(boxPixels),
        `reaches ${figure(reachMm, 1)} mm`,
      ],
    })),
  ];
  return (
    <Section title={`Tide lines and bleeds${suffix}`}>
      {rows.length === 0 ? (
        <p>
          No new tide line and no bleed past a printed edge was found. Fainter ones may be there:
          look along the margins in raking light.
        </p>
      ) : (
        <DataTable
          name={`Tide lines and bleeds${suffix}`}
          caption="Marked in the pictures under the same names."
          columns={[
            { head: "Mark" },
            { head: "What" },
            { head: "Where", wide: true },
            { head: "How much" },
          ]}
          rows={rows}
        />
      )}
      {dullBlacks === null ? null : (
        <p>
          {dullBlacks < LEAST_DULLING
            ? "No dulling of the blacks was found."
            : `Blacks have become lighter and duller by ${signed(dullBlacks, 1)} L*: calcium bloom or loss of gloss; look at them in raking light.`}
        </p>
      )}
    </Section>
  );
}

/** Inks with a loss first, the largest loss on top; then by area. */
function worstFirst({ inks }: CompareResult): CompareResult["inks"] {
  const rank = (ink: CompareResult["inks"][number]): number =>
    ink.verdict === "ink-lost" ? (ink.inkPartDeltaE00 ?? 0) : 0;
  return [...inks].sort((a, b) => rank(b) - rank(a) || b.areaCm2 - a.areaCm2);
}

/** One row an ink; the prediction beside it where there is one. */
export function InksPart({
  result,
  suffix,
  predicted,
}: PartProps & {
  /** Predicted fade by ink, 90 % range; null: no treatment record. */
  readonly predicted: Readonly<
    Record<string, { low: number; mid: number; high: number } | null>
  > | null;
}): VNode {
  return (
    <Section title={`Inks${suffix}`}>
      <p>
        Three figures for each ink, because lighter paper changes every ink printed on it: the
        measured change; the part that the paper's own change explains; and the part left for loss
        of ink. Below the floor nothing is claimed.
      </p>
      <DataTable
        name={`Inks${suffix}`}
        caption="Colour differences in dE00 (CIEDE2000), with 95 % intervals; predictions with 90 % ranges."
        columns={[
          { head: "Ink" },
          { head: "Before, after" },
          { head: "Area, cm²", number: true },
          { head: "Measured", number: true },
          { head: "From the paper", number: true },
          { head: "Ink part", number: true },
          { head: "Floor", number: true },
          ...(predicted === null ? [] : [{ head: "Predicted fade", number: true }]),
          { head: "Grey-scale step", number: true },
          { head: "In words", wide: true },
        ]}
        rows={worstFirst(result).map((ink) => {
          const guess = predicted?.[ink.id];
          return {
            head: (
              <>
                {ink.id}
                {ink.kind === "overprint" ? " (overprint)" : ""}
              </>
            ),
            cells: [
              <Swatches before={ink.labBefore} after={ink.labAfter} />,
              figure(ink.areaCm2, 1),
              <Ranged value={ink.deltaE00} low={ink.deltaE00Low} high={ink.deltaE00High} />,
              figure(ink.paperPartDeltaE00),
              <Ranged value={ink.inkPartDeltaE00} low={ink.inkPartLow} high={ink.inkPartHigh} />,
              figure(ink.floorDeltaE00),
              ...(predicted === null
                ? []
                : [
                    guess === null || guess === undefined ? (
                      "not predicted"
                    ) : (
                      <UpTo low={guess.low} high={guess.high} />
                    ),
                  ]),
              figure(ink.greyScaleStep, 1),
              `${inkWords(ink)}; measured change: ${readingWords(ink.deltaE00, ink.floorDeltaE00)}`,
            ],
          };
        })}
      />
      <p class="soft">
        {READING_SCALE} Grey-scale step after ISO 105-A05, 5 is no change and 1 the most; a common
        language here, not a test after that standard.
      </p>
    </Section>
  );
}

/** The bare paper. */
export function PaperPart({ result: { paper, damage }, suffix }: PartProps): VNode {
  if (paper === null)
    return (
      <Section title={`Paper${suffix}`}>
        <p>No bare paper was found in both scans, so the paper was not measured.</p>
      </Section>
    );
  const { labBefore, labAfter } = paper;
  const row = (name: string, at: 0 | 1 | 2, change: number | null) => ({
    head: name,
    cells: [figure(labBefore?.[at], 1), figure(labAfter?.[at], 1), signed(change, 1)],
  });
  const yellower =
    paper.yellownessBefore === null || paper.yellownessAfter === null
      ? null
      : paper.yellownessAfter - paper.yellownessBefore;
  return (
    <Section title={`Paper${suffix}`}>
      <p>
        <Swatches before={labBefore} after={labAfter} /> {PAPER_WORDS[paper.verdict]}: changed by{" "}
        {figure(paper.deltaE00)} dE00
        {paper.deltaE00Low === null
          ? ""
          : ` (95 %: ${between(paper.deltaE00Low, paper.deltaE00High)})`}
        , floor {figure(paper.floorDeltaE00)}, on {figure(paper.areaCm2, 0)} cm² of bare paper;{" "}
        {readingWords(paper.deltaE00, paper.floorDeltaE00)}.
      </p>
      <DataTable
        name={`Paper${suffix}`}
        columns={[
          { head: "Bare paper" },
          { head: "Before", number: true },
          { head: "After", number: true },
          { head: "Change", number: true },
        ]}
        rows={[
          row("L* (lightness)", 0, paper.deltaL),
          row("a* (green to red)", 1, paper.deltaA),
          row("b* (blue to yellow)", 2, paper.deltaB),
          {
            head: "Yellowness (estimate after ASTM E313)",
            cells: [
              figure(paper.yellownessBefore, 1),
              figure(paper.yellownessAfter, 1),
              signed(yellower, 1),
            ],
          },
        ]}
      />
      <p>
        Evenness:{" "}
        {damage.unevenCleaning === null
          ? "not measured."
          : `the change differs by ${figure(damage.unevenCleaning)} dE00 from place to place (standard deviation).`}{" "}
        Half of the paper's pixels changed by more than {figure(paper.pixelDeltaE00.median)} dE00, a
        twentieth by more than {figure(paper.pixelDeltaE00.p95)} dE00.
      </p>
    </Section>
  );
}

/** How the two scans were laid over one another. */
export function registrationWords({ registration }: CompareResult): string {
  const { scaleX, scaleY, residualP95Pixels, maskedShare, measuredShare } = registration;
  return `The sheet's width changed by ${signed(100 * (scaleX - 1))} % and its height by ${signed(100 * (scaleY - 1))} %. The after scan was laid over the before scan to ${figure(residualP95Pixels)} pixels (95th percentile); ${
    measuredShare === undefined
      ? `${percent(maskedShare)} of the sheet could not be placed safely and was left out`
      : `${percent(measuredShare)} of the sheet is measured; elsewhere, mostly along sharp edges, being misplaced by so much could feign a change, and it was left out`
  }.`;
}
