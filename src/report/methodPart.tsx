import type { VNode } from "preact";
import type { CompareResult, ScanReport } from "../results/compareResult.ts";
import { DataTable } from "./dataTable.tsx";
import { figure, nameOf } from "./figures.ts";
import { registrationWords } from "./comparisonPart.tsx";

/** Correction models by the names that people read. */
export function modelWords(model: string): string {
  return model === "gam+3x3" ? "tone curve and matrix" : model;
}

function residualWords({ card }: ScanReport): string {
  return card.leaveOneOut === null
    ? "not known: this card was never measured, so only differences are shown"
    : `mean ${figure(card.leaveOneOut.mean)}, 95th percentile ${figure(card.leaveOneOut.p95)}, largest ${figure(card.leaveOneOut.max)} dE00`;
}

function scanRow(name: string, scan: ScanReport) {
  const { card } = scan;
  return {
    head: name,
    cells: [
      nameOf(scan.file),
      `${String(scan.widthPixels)} x ${String(scan.heightPixels)} pixels, ${String(scan.bitDepth)} bit, ${scan.dpi === null ? "resolution not known" : `${figure(scan.dpi, 0)} dpi`}, ${scan.state} paper, profile ${scan.profile ?? "none"} (not applied)`,
      `${card.name}; ${modelWords(card.model)}${card.droppedPatches.length === 0 ? "" : `; left out: ${card.droppedPatches.join(", ")}`}`,
      residualWords(scan),
    ],
  };
}

/** How the figures were made: scans, cards, correction, white, version. */
export function MethodPart({
  compared,
  program,
}: {
  readonly compared: readonly { readonly name: string; readonly result: CompareResult }[];
  /** Version of this program; null where it is not known. */
  readonly program: string | null;
}): VNode {
  return (
    <>
      <ul>
        <li>
          Colours are CIELAB with white point D50 and the 2 degree observer. Differences are
          CIEDE2000 (dE00): about 1 is the least that an eye sees side by side.
        </li>
        <li>
          An area's colour is that of its mean light over all pixels that could be trusted. The
          floor is the smallest change that may be claimed there; it comes from the card in both
          scans and from the area's own sampling.
        </li>
        {compared.map(({ name, result }) => (
          <li>
            {compared.length > 1 ? `${name}: ` : ""}
            {registrationWords(result)}
          </li>
        ))}
        {program === null ? null : <li>Made with lastrinse {program}.</li>}
      </ul>
      {compared.length === 0 ? null : (
        <DataTable
          name="Scans and cards"
          caption="Residual: how far each patch of the card is missed when the correction is fitted without it."
          columns={[
            { head: "Scan" },
            { head: "File" },
            { head: "Picture" },
            { head: "Card and correction" },
            { head: "Residual" },
          ]}
          rows={compared.flatMap(({ name, result }) => {
            const of = compared.length > 1 ? `, ${name}` : "";
            return [scanRow(`before${of}`, result.before), scanRow(`after${of}`, result.after)];
          })}
        />
      )}
    </>
  );
}

/** Files with their SHA-256, so that anybody can check that they are the ones. */
export function FileHashes({
  files,
}: {
  readonly files: readonly { readonly file: string; readonly sha256: string }[];
}): VNode {
  return (
    <DataTable
      name="Files and their hashes"
      columns={[{ head: "File" }, { head: "SHA-256" }]}
      rows={files.map(({ file, sha256 }) => ({
        head: nameOf(file),
        cells: [<code>{sha256}</code>],
      }))}
    />
  );
}
