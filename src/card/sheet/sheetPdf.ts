import PDFDocument from "pdfkit";
import type { Drawing, Shape } from "./drawing.ts";
import { MM_PER_INCH } from "../../numeric/units.ts";

const POINTS_PER_MM = 72 / MM_PER_INCH;

/** Written into every sheet, so that the same drawing gives the same bytes. */
const FIXED_DATE = new Date(Date.UTC(2000, 0, 1));

/**
 * The drawing as a one-page PDF of true size. Not compressed and with a fixed date: the same drawing gives the same bytes. Asks
 * the viewer not to scale when printing.
 */
export function sheetPdf(drawing: Drawing): Promise<Buffer> {
  const doc = new PDFDocument({
    size: [drawing.widthMm * POINTS_PER_MM, drawing.heightMm * POINTS_PER_MM],
    margin: 0,
    compress: false,
    info: {
      Title: drawing.title,
      Creator: "lastrinse",
      Producer: "lastrinse",
      CreationDate: FIXED_DATE,
    },
  });
  const chunks: Buffer[] = [];
  const done = new Promise<Buffer>((resolve, reject) => {
    doc.on("data", (chunk: Buffer) => chunks.push(chunk));
    doc.on("end", () => resolve(Buffer.concat(chunks)));
    doc.on("error", reject);
  });
  // The page's own scale, so that every shape below is in millimetres.
  doc.scale(POINTS_PER_MM);
  for (const shape of drawing.shapes) paint(doc, shape);
  doc.end();
  return done;
}

function paint(doc: PDFKit.PDFDocument, shape: Shape): void {
  switch (shape.kind) {
    case "rect":
      doc.rect(shape.x, shape.y, shape.width, shape.height).fill(shape.fill);
      return;
    case "circle":
      doc.circle(shape.x, shape.y, shape.radius).fill(shape.fill);
      return;
    case "line":
      doc
        .moveTo(shape.from[0], shape.from[1])
        .lineTo(shape.to[0], shape.to[1])
        .lineWidth(shape.width)
        .stroke(shape.stroke);
      return;
    case "text": {
      doc.font("Helvetica").fontSize(shape.size).fillColor(shape.fill);
      const width = doc.widthOfString(shape.text);
      const shift = { start: 0, middle: width / 2, end: width }[shape.anchor];
      doc.text(shape.text, shape.x - shift, shape.y, { baseline: "alphabetic", lineBreak: false });
      return;
    }
  }
}
