import { JAR_BACKING } from "../../../calibration/jar-backing.ts";
import { type Drawing, INK, type Shape } from "./drawing.ts";
import { fiducial } from "./fiducial.ts";
import { ruler } from "./ruler.ts";

/** The striped backing on an A4 page across: stripes, four fiducials, millimetre scales at both sides, check ruler, instructions. */
export function jarBackingSheet(): Drawing {
  const {
    widthMm,
    heightMm,
    fiducialMm,
    fiducialsMm,
    stripesLeftMm,
    stripesRightMm,
    zones,
    edition,
  } = JAR_BACKING;
  const shapes: Shape[] = fiducialsMm.flatMap(([x, y], i) => fiducial(x, y, fiducialMm, i === 0));
  for (const { kind, fromMm, toMm } of zones) {
    const period = kind === "wide" ? JAR_BACKING.widePeriodMm : JAR_BACKING.narrowPeriodMm;
    // Whole periods, white first: only the black halves are printed.
    for (let y = fromMm + period / 2; y < toMm; y += period)
      shapes.push({
        kind: "rect",
        x: stripesLeftMm,
        y,
        width: stripesRightMm - stripesLeftMm,
        height: period / 2,
        fill: INK,
      });
  }
  const top = zones[0].fromMm;
  const height = zones[zones.length - 1].toMm - top;
  const line = (y: number, text: string, size = 3): Shape => ({
    kind: "text",
    x: stripesLeftMm,
    y,
    text,
    size,
    anchor: "start",
    fill: INK,
  });
  shapes.push(
    ...ruler(stripesLeftMm - 2, top, height, "vertical", -1),
    ...ruler(stripesRightMm + 2, top, height, "vertical", 1),
    line(14, `Jar backing, edition ${edition}, true size: print at 100 % on matt white paper`, 4),
    line(
      20.5,
      "Stand it upright 2 cm or more behind the jar, lit evenly. Stripes show past both sides of the jar and through 60 mm of liquid.",
    ),
    line(
      190,
      "Leave jar, backing, lamp, card and camera where they are, from the photo of the fresh bath to that of the last one.",
    ),
    ...centimetres(stripesLeftMm - 6.2, top, height, "end"),
    ...centimetres(stripesRightMm + 6.2, top, height, "start"),
    ...ruler(stripesLeftMm, 195, 100, "horizontal", 1),
    {
      kind: "text",
      x: stripesLeftMm + 103,
      y: 198.2,
      text: "100 mm: check with a real ruler",
      size: 3,
      anchor: "start",
      fill: INK,
    },
  );
  return { title: JAR_BACKING.title, widthMm, heightMm, shapes };
}

/** Numbers beside a vertical scale, in cm from its top: for noting how far the jar was filled. */
function centimetres(x: number, top: number, height: number, anchor: "start" | "end"): Shape[] {
  return Array.from({ length: Math.floor(height / 10) + 1 }, (_, cm): Shape => {
    return {
      kind: "text",
      x,
      y: top + 10 * cm + 0.9,
      text: String(cm),
      size: 2.6,
      anchor,
      fill: INK,
    };
  });
}
