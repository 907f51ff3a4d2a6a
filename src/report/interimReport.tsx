import type { TreatmentView } from "../record/treatmentView.ts";
import { AdviceLead, ReasonsPart, RiskTable } from "./adviceParts.tsx";
import { ConditionsTable, FadeCourse, JarsPart, WashoutPart } from "./bathParts.tsx";
import { BlotsPart } from "./blotPart.tsx";
import { CautionsPart } from "./cautionsPart.tsx";
import { FileHashes, MethodPart } from "./methodPart.tsx";
import { NotesPart } from "./notesPart.tsx";
import { renderPage, Section } from "./page.tsx";
import { filesOf } from "./filesOf.ts";
import { SIDE_WORDS } from "./sideWords.ts";
import { deviationsOf } from "./statementPart.tsx";
import { StepsPart } from "./stepsPart.tsx";
import { Written } from "./text.tsx";

/**
 * The page before the next bath: where the sheet belongs, the verdict and its reasons, fade and risk, what another bath would bring.
 * @param beforeUri Data address of the picture before washing; null where there is none.
 */
export function interimReport(view: TreatmentView, beforeUri: string | null): string {
  const deviations = deviationsOf(view);
  return renderPage({
    title: `Before the next bath: ${view.title}`,
    body: (
      <>
        <h1>
          <Written text={view.title} />
        </h1>
        <p class="soft">
          Before the next bath, after {view.baths.length}{" "}
          {view.baths.length === 1 ? "bath" : "baths"}.
          {view.object === null ? null : (
            <>
              {" "}
              <Written text={view.object} />
            </>
          )}
        </p>
        <AdviceLead {...view} />
        <ReasonsPart {...view} />
        <Section title="Fade so far and its risk">
          <RiskTable {...view} />
          {view.baths.length === 0 ? null : <FadeCourse {...view} />}
        </Section>
        <WashoutPart {...view} />
        <JarsPart {...view} />
        <BlotsPart {...view} />
        {view.beforePicture === null || beforeUri === null ? (
          <Section title="The sheet before washing">
            <p>
              {view.scannedBefore.length === 0
                ? "No scan with a card is in the record yet. Without one, nothing can be said of the size or colour of the inks, and the change after washing cannot be measured: scan the dry cover before it gets wet."
                : "The picture of the before scan is not at hand."}
            </p>
          </Section>
        ) : (
          <Section title="The sheet before washing">
            <figure class="single">
              <img
                src={beforeUri}
                alt={`The ${SIDE_WORDS[view.beforePicture.side]} of the sheet before washing, with its card`}
              />
              <figcaption>Before: {SIDE_WORDS[view.beforePicture.side]}</figcaption>
            </figure>
          </Section>
        )}
        <Section title="Conditions of the baths">
          <ConditionsTable {...view} />
        </Section>
        {deviations.length === 0 ? null : (
          <Section title="Deviations">
            <ul>
              {deviations.map((line) => (
                <li>{line}</li>
              ))}
            </ul>
          </Section>
        )}
        <StepsPart events={view.events} />
        <NotesPart warnings={view.warnings} />
        <Section title="Method">
          <MethodPart compared={[]} program={view.program} />
          <FileHashes files={filesOf(view.events)} />
        </Section>
        <CautionsPart />
      </>
    ),
  });
}
