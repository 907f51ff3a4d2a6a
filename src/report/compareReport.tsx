import type { CompareResult } from "../results/compareResult.ts";
import { CautionsPart } from "./cautionsPart.tsx";
import {
  comparisonSummary,
  DamagePart,
  InksPart,
  PaperPart,
  PicturesPart,
} from "./comparisonPart.tsx";
import { nameOf } from "./figures.ts";
import { FileHashes, MethodPart } from "./methodPart.tsx";
import { NotesPart } from "./notesPart.tsx";
import { PlatesPart } from "./platesPart.tsx";
import { renderPage, Section } from "./page.tsx";
import { type ComparePictures, dataUri, pagePictures } from "./pagePictures.ts";
import { SCRIPT } from "./script.ts";
import { Written } from "./text.tsx";

export type { ComparePictures } from "./pagePictures.ts";

/** The page of a single comparison, without a record. */
export async function compareReport(
  result: CompareResult,
  pictures: ComparePictures,
  /** PNG of the loss of each plate by place; null without plates. */
  plateMaps: Uint8Array | null = null,
): Promise<string> {
  const [shown] = await pagePictures([{ result, pictures }]);
  const part = { result, id: "pair", suffix: "" };
  const name = nameOf(result.before.file);
  const unmeasured = result.before.card.leaveOneOut === null;
  return renderPage({
    title: `Before and after: ${name}`,
    script: SCRIPT,
    body: (
      <>
        <h1>Before and after</h1>
        <p class="lead">{comparisonSummary(result)}</p>
        {unmeasured ? (
          <p class="note">
            The card's own colours were never measured. What changed between the two scans is shown;
            the colours themselves are only near the truth.
          </p>
        ) : null}
        <p class="soft">
          One pair of scans, no treatment record: <Written text={name} /> and{" "}
          <Written text={nameOf(result.after.file)} />. Not a condition grade, authentication or
          valuation.
        </p>
        <PlatesPart
          result={result}
          suffix=""
          maps={plateMaps === null ? null : dataUri("png", plateMaps)}
        />
        <PicturesPart {...part} pictures={shown} />
        <DamagePart {...part} />
        <InksPart {...part} predicted={null} />
        <PaperPart {...part} />
        <NotesPart warnings={result.warnings} />
        <Section title="Method">
          <MethodPart compared={[{ name: "pair", result }]} program={null} />
          <FileHashes files={[result.before, result.after]} />
        </Section>
        <CautionsPart />
      </>
    ),
  });
}
