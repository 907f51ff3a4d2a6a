import { STRIP_CARD_LAYOUT } from "../../../calibration/strip-card.ts";
import { type Drawing, INK, type Shape, shifted } from "./drawing.ts";
import { ruler } from "./ruler.ts";
import { stripCardDrawing } from "./stripCardDrawing.ts";

const PAGE_WIDTH_MM = 297;
const PAGE_HEIGHT_MM = 210;

/** Spares: a fresh one of the same print shows when the one in use has drifted. */
const COPIES = 4;
const FIRST_TOP_MM = 50;
const STEP_MM = 36;

/** An A4 page across with four strip cards, cut marks, a check ruler and what to do with them. */
export function stripCardSheet(): Drawing {
  const { widthMm, heightMm } = STRIP_CARD_LAYOUT;
  const left = (PAGE_WIDTH_MM - widthMm) / 2;
  const strip = stripCardDrawing().shapes;
  const shapes: Shape[] = [];
  for (let copy = 0; copy < COPIES; copy++) {
    const top = FIRST_TOP_MM + copy * STEP_MM;
    shapes.push(...shifted(strip, left, top), ...cutMarks(left, top, widthMm, heightMm));
  }
  const line = (y: number, text: string, size = 3.2): Shape => ({
    kind: "text",
    x: left,
    y,
    text,
    size,
    anchor: "start",
    fill: INK,
  });
  shapes.push(
    line(
      15,
      "Strip card, true size: print at 100 %, on matt paper, with colour management on",
      4.2,
    ),
    line(
      21.5,
      "Check the ruler with a real one: 100 mm. Let the print dry for a day, cut at the marks.",
    ),
    line(
      26.5,
      "Lay the same physical strip at head or tail of the cover for both scans; keep it dry and dark.",
    ),
    line(
      31.5,
      "Nobody measured this print: it serves differences between two frames. Replace it when its greys drift against a spare.",
    ),
    ...ruler(left, 36, 100, "horizontal", 1),
    {
      kind: "text",
      x: left + 103,
      y: 39.2,
      text: "100 mm",
      size: 3.2,
      anchor: "start",
      fill: INK,
    },
  );
  return { title: "Strip card", widthMm: PAGE_WIDTH_MM, heightMm: PAGE_HEIGHT_MM, shapes };
}

/** Short lines that stop before the strip, two at each corner. */
function cutMarks(left: number, top: number, width: number, height: number): Shape[] {
  const marks: Shape[] = [];
  for (const [x, outX] of [
    [left, -1],
    [left + width, 1],
  ])
    for (const [y, outY] of [
      [top, -1],
      [top + height, 1],
    ])
      marks.push(
        { kind: "line", from: [x + outX, y], to: [x + 4 * outX, y], width: 0.15, stroke: INK },
        { kind: "line", from: [x, y + outY], to: [x, y + 3 * outY], width: 0.15, stroke: INK },
      );
  return marks;
}
