import { STRIP_CARD_LAYOUT, STRIP_CARD_PATCHES } from "../../../calibration/strip-card.ts";
import { labD50ToSrgb } from "../../colour/srgb.ts";
import type { Triple } from "../../numeric/triple.ts";
import { type Drawing, GROUND, INK, type Shape } from "./drawing.ts";
import { fiducial } from "./fiducial.ts";

/** The strip card alone, true size: colours are the sRGB of the Lab aims. */
export function stripCardDrawing(): Drawing {
  const {
    widthMm,
    heightMm,
    columns,
    pitchMm,
    patchMm,
    firstMm,
    fiducialMm,
    fiducialsMm,
    edition,
  } = STRIP_CARD_LAYOUT;
  const shapes: Shape[] = [
    { kind: "rect", x: 0, y: 0, width: widthMm, height: heightMm, fill: GROUND },
  ];
  fiducialsMm.forEach(([x, y], i) => shapes.push(...fiducial(x, y, fiducialMm, i === 0)));
  STRIP_CARD_PATCHES.forEach(([, lab], i) =>
    shapes.push({
      kind: "rect",
      x: firstMm[0] + (i % columns) * pitchMm - patchMm / 2,
      y: firstMm[1] + Math.floor(i / columns) * pitchMm - patchMm / 2,
      width: patchMm,
      height: patchMm,
      fill: hexOf(labD50ToSrgb(lab)),
    }),
  );
  const text = (x: number, words: string): Shape => ({
    kind: "text",
    x,
    y: heightMm - 2,
    text: words,
    size: 2.3,
    anchor: "start",
    fill: INK,
  });
  shapes.push(
    text(8, `lastrinse strip card, edition ${edition}`),
    text(68, "printed on ____________________"),
    text(112, "paper ____________________"),
    text(150, "batch ____________________"),
  );
  return { title: "Strip card", widthMm, heightMm, shapes };
}

function hexOf(rgb: Triple): string {
  const digits = rgb.map((code) =>
    Math.round(255 * code)
      .toString(16)
      .padStart(2, "0"),
  );
  return `#${digits.join("")}`;
}
