import { seededRandom } from "../../src/numeric/random.ts";

/** How a sheet lies on the scanner. All lengths in mm of the frame, x right, y down, (0, 0) the frame's top-left corner. */
export interface Placement {
  /** Clockwise turn about the sheet's middle. */
  readonly rotationDegrees: number;
  /** Frame mm per sheet mm along the sheet's x and y; paper that was wet seldom dries to its old size. */
  readonly scaleX: number;
  readonly scaleY: number;
  /** Where the sheet's middle lies. */
  readonly middle: readonly [number, number];
  /** Largest displacement by cockling, mm; 0 for a flat sheet. */
  readonly cockleMm: number;
  /** Shortest wave of the cockle, mm. */
  readonly shortestWaveMm: number;
  readonly cockleSeed: number;
  /** The sheet lies face to face with its mirror image: never in life, only to see it refused. */
  readonly mirrored: boolean;
}

/** The sheet to the frame and back; both in mm, both exact to rounding. */
export interface SheetMap {
  readonly toFrame: (x: number, y: number) => [number, number];
  readonly toSheet: (x: number, y: number) => [number, number];
}

const WAVES = 6;

/** Displacement in sheet mm at a place of the flattened sheet: six sine waves in seeded directions, largest length `peakMm`. */
function cockle(
  placement: Placement,
  widthMm: number,
  heightMm: number,
): (x: number, y: number) => [number, number] {
  if (placement.cockleMm === 0) return () => [0, 0];
  const random = seededRandom(placement.cockleSeed);
  const waves = Array.from({ length: WAVES }, () => {
    const direction = 2 * Math.PI * random.uniform();
    const frequency = (2 * Math.PI) / (placement.shortestWaveMm * (1 + 1.8 * random.uniform()));
    const push = 2 * Math.PI * random.uniform();
    return {
      kx: frequency * Math.cos(direction),
      ky: frequency * Math.sin(direction),
      phase: 2 * Math.PI * random.uniform(),
      dx: Math.cos(push),
      dy: Math.sin(push),
    };
  });
  const raw = (x: number, y: number): [number, number] => {
    let dx = 0;
    let dy = 0;
    for (const wave of waves) {
      const s = Math.sin(wave.kx * x + wave.ky * y + wave.phase);
      dx += wave.dx * s;
      dy += wave.dy * s;
    }
    return [dx, dy];
  };
  let peak = 0;
  for (let y = 0; y <= heightMm; y += 2)
    for (let x = 0; x <= widthMm; x += 2) peak = Math.max(peak, Math.hypot(...raw(x, y)));
  const gain = placement.cockleMm / peak;
  return (x, y) => {
    const [dx, dy] = raw(x, y);
    return [gain * dx, gain * dy];
  };
}

/** Rounds of the fixed-point rule; the displacement changes by less than 0.2 a mm, so 24 rounds leave 1e-16. */
const ROUNDS = 24;

/**
 * The map of a placed sheet. Frame to sheet is a closed form (rigid, scaled, minus the cockle); sheet to frame solves it.
 */
export function sheetMap(placement: Placement, widthMm: number, heightMm: number): SheetMap {
  const angle = (placement.rotationDegrees * Math.PI) / 180;
  // Right angles are made exact so that a sheet turned by 90 degrees keeps its edges on the pixel rows.
  const c = Math.abs(Math.cos(angle)) < 1e-15 ? 0 : Math.cos(angle);
  const s = Math.abs(Math.sin(angle)) < 1e-15 ? 0 : Math.sin(angle);
  const [mx, my] = placement.middle;
  const wave = cockle(placement, widthMm, heightMm);
  const flip = placement.mirrored ? -1 : 1;
  return {
    toSheet: (x, y) => {
      const u = ((x - mx) * c + (y - my) * s) / placement.scaleX;
      const v = (-(x - mx) * s + (y - my) * c) / placement.scaleY;
      const flatX = flip * u + widthMm / 2;
      const flatY = v + heightMm / 2;
      const [dx, dy] = wave(flatX, flatY);
      return [flatX - dx, flatY - dy];
    },
    toFrame: (x, y) => {
      let flatX = x;
      let flatY = y;
      for (let round = 0; round < ROUNDS; round++) {
        const [dx, dy] = wave(flatX, flatY);
        flatX = x + dx;
        flatY = y + dy;
      }
      const u = flip * (flatX - widthMm / 2) * placement.scaleX;
      const v = (flatY - heightMm / 2) * placement.scaleY;
      return [mx + u * c - v * s, my + u * s + v * c];
    },
  };
}
