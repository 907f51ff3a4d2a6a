import type { ComparisonView, TreatmentView } from "../record/treatmentView.ts";
import { ConditionsTable, FadeCourse, JarsPart, WashoutPart } from "./bathParts.tsx";
import { BlotsPart } from "./blotPart.tsx";
import { CautionsPart } from "./cautionsPart.tsx";
import {
  comparisonSummary,
  DamagePart,
  InksPart,
  PaperPart,
  PicturesPart,
} from "./comparisonPart.tsx";
import { filesOf } from "./filesOf.ts";
import { FileHashes, MethodPart } from "./methodPart.tsx";
import { NotesPart } from "./notesPart.tsx";
import { PlatesPart } from "./platesPart.tsx";
import { renderPage, Section } from "./page.tsx";
import type { PagePictures } from "./pagePictures.ts";
import { PredictionPart } from "./predictionPart.tsx";
import { RefusalPart } from "./refusalPart.tsx";
import { SCRIPT } from "./script.ts";
import { SIDE_WORDS } from "./sideWords.ts";
import { disclosure, StatementPart } from "./statementPart.tsx";
import { StepsPart } from "./stepsPart.tsx";
import { Written } from "./text.tsx";

/** "front", or "front, finished" for a scan after later steps. */
export function comparisonName({ side, stage }: ComparisonView): string {
  return `${SIDE_WORDS[side]}${stage === "finished" ? ", finished" : ""}`;
}

/**
 * The page after drying: statement of treatment, what happened, whether the prediction was right.
 * @param pictures One a comparison that has figures, in order.
 */
export function finalReport(view: TreatmentView, pictures: readonly PagePictures[]): string {
  const { comparisons } = view;
  const measured = comparisons.flatMap(({ compared, ...rest }) =>
    compared === null ? [] : [{ ...rest, compared }],
  );
  const suffixOf = (one: ComparisonView): string =>
    comparisons.length > 1 ? ` (${comparisonName(one)})` : "";
  const notes = [...view.warnings, ...measured.flatMap(({ compared }) => compared.result.warnings)];
  const seen = new Set<string>();
  const warnings = notes.filter(({ message }) => !seen.has(message) && seen.add(message));
  return renderPage({
    title: `Treatment report: ${view.title}`,
    script: SCRIPT,
    body: (
      <>
        <p class="lead disclosure">{disclosure(view)}</p>
        <h1>
          <Written text={view.title} />
        </h1>
        {measured.map((one) => (
          <p>
            {comparisons.length > 1 ? <strong>{comparisonName(one)}. </strong> : null}
            {comparisonSummary(one.compared.result)}
          </p>
        ))}
        <StatementPart view={view} />
        {comparisons.map((one) => {
          const { compared, refused, side, stage } = one;
          const suffix = suffixOf(one);
          if (compared === null)
            return refused === null ? null : (
              <Section title={`Before, after and difference${suffix}`}>
                <RefusalPart {...refused} />
              </Section>
            );
          const part = { result: compared.result, id: `${side}-${stage}`, suffix };
          const at = measured.findIndex((other) => other.side === side && other.stage === stage);
          const withPrediction = side === "front" && stage === "washed" && view.prediction !== null;
          return (
            <>
              <PlatesPart result={compared.result} suffix={suffix} />
              <PicturesPart {...part} pictures={pictures[at]} />
              <DamagePart {...part} />
              <InksPart {...part} predicted={withPrediction ? view.fade : null} />
              <PaperPart {...part} />
            </>
          );
        })}
        <PredictionPart {...view} />
        {view.baths.length === 0 ? null : (
          <Section title="Predicted fade, bath after bath">
            <FadeCourse {...view} />
          </Section>
        )}
        <WashoutPart {...view} nextBath={null} />
        <JarsPart {...view} />
        <BlotsPart {...view} />
        <Section title="Conditions of the baths">
          <ConditionsTable {...view} />
        </Section>
        <StepsPart events={view.events} />
        <NotesPart warnings={warnings} />
        <Section title="Method">
          <MethodPart
            compared={measured.map((one) => ({
              name: comparisonName({ ...one }),
              result: one.compared.result,
            }))}
            program={view.program}
          />
          <FileHashes files={filesOf(view.events)} />
        </Section>
        <CautionsPart />
      </>
    ),
  });
}
