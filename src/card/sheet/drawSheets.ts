import { jarBackingSheet } from "./jarBackingSheet.ts";
import { sheetPdf } from "./sheetPdf.ts";
import { sheetSvg } from "./sheetSvg.ts";
import { stripCardSheet } from "./stripCardSheet.ts";

export interface PrintableSheet {
  /** File name without its ending. */
  readonly name: string;
  readonly svg: string;
  readonly pdf: Buffer;
}

/** The true-size printable sheets: the strip card and the jar backing. Deterministic to the byte. */
export async function drawSheets(): Promise<PrintableSheet[]> {
  const drawings = [
    ["strip-card", stripCardSheet()],
    ["jar-backing", jarBackingSheet()],
  ] as const;
  return Promise.all(
    drawings.map(async ([name, drawing]) => ({
      name,
      svg: sheetSvg(drawing),
      pdf: await sheetPdf(drawing),
    })),
  );
}
