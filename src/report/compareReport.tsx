import type { VNode } from "preact";
import type { AreaReport, CompareResult, InkReport, ScanReport } from "../compare/result.ts";
import { INK_WORDS, PAPER_WORDS } from "../compare/words.ts";
import { CAUTIONS } from "./cautions.ts";
import { HeatMapLegend } from "./heatMapLegend.tsx";
import { renderPage, Section } from "./page.tsx";
import { Swatches } from "./swatches.tsx";

/** Pictures as PNG bytes, at most 150 dpi, all on the lattice of the before scan. */
export interface ComparePictures {
  readonly before: Uint8Array;
  readonly after: Uint8Array;
  readonly difference: Uint8Array;
}

function figure(value: number | null, digits = 2): string {
  return value === null ? "not measured" : value.toFixed(digits);
}

function interval(low: number | null, high: number | null): string {
  return low === null || high === null ? "" : ` (95 %: ${figure(low)} to ${figure(high)})`;
}

function dataUri(png: Uint8Array): string {
  return `data:image/png;base64,${Buffer.from(png).toString("base64")}`;
}

function nameOf(file: string): string {
  return file.split(/[\\/]/).at(-1) ?? file;
}

function Change({ area }: { readonly area: AreaReport }): VNode {
  return (
    <span class="figure">
      {figure(area.deltaE00)}
      {interval(area.deltaE00Low, area.deltaE00High)}
    </span>
  );
}

function InkRow({ ink }: { readonly ink: InkReport }): VNode {
  return (
    <tr>
      <th scope="row">
        {ink.id}
        {ink.kind === "overprint" ? " (overprint)" : ""}
      </th>
      <td>
        <Swatches before={ink.labBefore} after={ink.labAfter} />
      </td>
      <td class="number">{figure(ink.areaCm2, 1)}</td>
      <td>
        <Change area={ink} />
      </td>
      <td class="number">{figure(ink.paperPartDeltaE00)}</td>
      <td class="figure">
        {figure(ink.inkPartDeltaE00)}
        {interval(ink.inkPartLow, ink.inkPartHigh)}
      </td>
      <td class="number">{figure(ink.floorDeltaE00)}</td>
      <td class="number">{figure(ink.greyScaleStep, 1)}</td>
      <td>{INK_WORDS[ink.verdict]}</td>
    </tr>
  );
}

function ScanLine({ scan }: { readonly scan: ScanReport }): VNode {
  const { card } = scan;
  return (
    <li>
      {nameOf(scan.file)}: {scan.widthPixels} x {scan.heightPixels} pixels, {scan.bitDepth} bit,{" "}
      {scan.dpi === null ? "resolution not known" : `${scan.dpi.toFixed(0)} dpi`}, paper{" "}
      {scan.state}, profile {scan.profile ?? "none"} (not applied). Card {card.name}, correction by{" "}
      {card.model === "gam+3x3" ? "tone curve and matrix" : card.model}, leave-one-out{" "}
      {card.leaveOneOut === null
        ? "not known (the card is not measured: differences only)"
        : `mean ${figure(card.leaveOneOut.mean)}, p95 ${figure(card.leaveOneOut.p95)}, largest ${figure(card.leaveOneOut.max)} dE00`}
      . SHA-256 {scan.sha256}.
    </li>
  );
}

/** The page of a single comparison, without a record. */
export function compareReport(result: CompareResult, pictures: ComparePictures): string {
  const { paper, inks, registration, warnings } = result;
  const lost = inks.filter((ink) => ink.verdict === "ink-lost");
  const summary =
    lost.length === 0
      ? "No loss of ink is shown above the floor."
      : `Ink lost is shown in: ${lost.map((ink) => ink.id).join(", ")}.`;
  return renderPage({
    title: `Before and after: ${nameOf(result.before.file)}`,
    body: (
      <>
        <h1>Before and after</h1>
        <p>
          {summary} {paper === null ? "" : `${PAPER_WORDS[paper.verdict]}.`}
        </p>
        <p class="soft">
          One pair of scans, no treatment record. Differences are CIEDE2000 on CIELAB D50, 2 degree
          observer. Below the floor nothing is claimed.
        </p>
        <Section title="Pictures">
          <div class="pictures">
            <figure>
              <img src={dataUri(pictures.before)} alt="The cover before" />
              <figcaption>Before</figcaption>
            </figure>
            <figure>
              <img src={dataUri(pictures.after)} alt="The cover after, laid over the before scan" />
              <figcaption>After, laid over the before scan</figcaption>
            </figure>
            <figure>
              <img src={dataUri(pictures.difference)} alt={`Difference map. ${summary}`} />
              <figcaption>Difference</figcaption>
            </figure>
          </div>
          <HeatMapLegend />
        </Section>
        <Section title="Inks">
          <div class="scroll" tabindex={0} role="region" aria-label="Table of inks">
            <table>
              <caption>
                Three figures for each ink: the measured change, the part explained by the paper's
                own change under an untouched ink, and the part left for loss of ink. All in dE00.
              </caption>
              <thead>
                <tr>
                  <th scope="col">Ink</th>
                  <th scope="col">Before, after</th>
                  <th scope="col" class="number">
                    Area, cm2
                  </th>
                  <th scope="col">Measured</th>
                  <th scope="col" class="number">
                    From paper
                  </th>
                  <th scope="col">Ink part</th>
                  <th scope="col" class="number">
                    Floor
                  </th>
                  <th scope="col" class="number">
                    Grey-scale step
                  </th>
                  <th scope="col">In words</th>
                </tr>
              </thead>
              <tbody>
                {inks.map((ink) => (
                  <InkRow ink={ink} />
                ))}
              </tbody>
            </table>
          </div>
        </Section>
        {paper === null ? null : (
          <Section title="Paper">
            <p>
              <Swatches before={paper.labBefore} after={paper.labAfter} />{" "}
              {PAPER_WORDS[paper.verdict]}: L* changed by {figure(paper.deltaL)}, b* by{" "}
              {figure(paper.deltaB)}; dE00 <Change area={paper} />, floor{" "}
              {figure(paper.floorDeltaE00)}. Yellowness (ASTM E313, estimate){" "}
              {figure(paper.yellownessBefore, 1)} before, {figure(paper.yellownessAfter, 1)} after.
            </p>
          </Section>
        )}
        {warnings.length === 0 ? null : (
          <Section title="Notes">
            {warnings.map(({ message }) => (
              <p class="note">{message}</p>
            ))}
          </Section>
        )}
        <Section title="Method">
          <ul>
            <ScanLine scan={result.before} />
            <ScanLine scan={result.after} />
            <li>
              The sheet grew by {figure(100 * (registration.scaleX - 1))} % across and{" "}
              {figure(100 * (registration.scaleY - 1))} % along; the after scan was laid over the
              before scan to {figure(registration.residualP95Pixels)} px (95th percentile).{" "}
              {figure(100 * registration.maskedShare, 0)} % of the sheet could not be placed safely
              and was left out.
            </li>
          </ul>
        </Section>
        <Section title="Cautions">
          {CAUTIONS.map(({ about, text }) => (
            <p>
              <strong>{about}.</strong> {text}
            </p>
          ))}
        </Section>
      </>
    ),
  });
}
