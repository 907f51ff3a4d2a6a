/** An affine map, x' = a x + b y + tx, y' = c x + d y + ty. */
export interface Affine {
  readonly a: number;
  readonly b: number;
  readonly tx: number;
  readonly c: number;
  readonly d: number;
  readonly ty: number;
}

/** An affine map taken apart: first stretch and shear, then turn. */
export interface AffineParts {
  readonly scaleX: number;
  readonly scaleY: number;
  /** How far the right angle between the axes closes: tangent of the angle, unitless. */
  readonly shear: number;
  /** Turn of the x axis towards the y axis (clockwise on screen, y down), -180..180. */
  readonly rotationDegrees: number;
  /** The picture is flipped. */
  readonly mirrored: boolean;
}

/** Linear part = R(rotation) [[scaleX, shear scaleY], [0, scaleY]] (a QR decomposition). */
export function affineParts({ a, b, c, d }: Affine): AffineParts {
  const scaleX = Math.hypot(a, c);
  const determinant = a * d - b * c;
  return {
    scaleX,
    scaleY: Math.abs(determinant) / scaleX,
    shear: (a * b + c * d) / determinant,
    rotationDegrees: (Math.atan2(c, a) * 180) / Math.PI,
    mirrored: determinant < 0,
  };
}
