import { FIDUCIAL_RINGS } from "../../../calibration/fiducial.ts";
import { GROUND, INK, type Shape } from "./drawing.ts";

/** Nested squares: black, white, black; the origin's has a white hole in the middle. `side` is the outer one, in mm. */
export function fiducial(x: number, y: number, side: number, origin: boolean): Shape[] {
  const square = (share: number, fill: string): Shape => ({
    kind: "rect",
    x: x - (share * side) / 2,
    y: y - (share * side) / 2,
    width: share * side,
    height: share * side,
    fill,
  });
  const shapes = [
    square(1, INK),
    square(FIDUCIAL_RINGS.white, GROUND),
    square(FIDUCIAL_RINGS.core, INK),
  ];
  if (origin) shapes.push(square(FIDUCIAL_RINGS.hole, GROUND));
  return shapes;
}
