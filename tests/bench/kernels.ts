import chroma from "chroma-js";
import { differenceCiede2000 } from "culori";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { deltaE00Tables } from "../../src/colour/deltaE00Tables.ts";
import { lightToLabTables } from "../../src/colour/lightToLabTables.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { deltaE00Simd } from "../../src/colour/simd/deltaE00Simd.ts";
import { lightToLabSimd } from "../../src/colour/simd/lightToLabSimd.ts";
import { startKernel } from "../../src/colour/simd/startKernel.ts";
import { SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import type { ThreePlanes } from "../../src/grid/threePlanes.ts";
import { WHITE_D50 } from "../../src/colour/whites.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { srgbTables } from "../../src/raster/srgbTables.ts";

/** Pairs of sRGB pixels, interleaved R G B; the second a few codes beside the first, as before and after washing. */
export interface PixelPairs {
  readonly count: number;
  readonly before: Uint8Array;
  readonly after: Uint8Array;
}

export function pixelPairs(count: number): PixelPairs {
  const random = seededRandom(7);
  const before = Uint8Array.from({ length: 3 * count }, () => random.below(256));
  const after = before.map((code) =>
    Math.max(0, Math.min(255, code + Math.round(6 * random.normal()))),
  );
  return { count, before, after };
}

const [TABLE] = srgbTables(8);

/** The matrix of sRGB over the white, as `lightToLab` folds it; no offset. */
const ROWS = WHITE_D50.flatMap((white, k) =>
  [...SRGB_TO_XYZ_D50.slice(3 * k, 3 * k + 3), 0].map((value) => value / white),
);

/** Working memory of both kernels, kept from call to call as the strips of a picture would. */
let kept: readonly [before: ThreePlanes, after: ThreePlanes, out: Float32Array, usable: Uint8Array];

function memoryOf(count: number): typeof kept {
  const planes = () =>
    [new Float32Array(count), new Float32Array(count), new Float32Array(count)] as const;
  if (kept?.[2].length !== count)
    kept = [planes(), planes(), new Float32Array(count), new Uint8Array(count).fill(1)];
  return kept;
}

function linearise(bytes: Uint8Array, [r, g, b]: ThreePlanes): void {
  for (let i = 0, at = 0; i < r.length; i++, at += 3) {
    r[i] = TABLE[bytes[at]];
    g[i] = TABLE[bytes[at + 1]];
    b[i] = TABLE[bytes[at + 2]];
  }
}

/** Bytes to linear light to CIELAB to dE00, as the program goes about it, all planes whole. */
function sumOfPlanes(
  pairs: PixelPairs,
  toLab: typeof lightToLabTables,
  difference: typeof deltaE00Tables,
): number {
  const [before, after, out, usable] = memoryOf(pairs.count);
  linearise(pairs.before, before);
  linearise(pairs.after, after);
  toLab(before, ROWS, before);
  toLab(after, ROWS, after);
  difference(before, after, usable, out);
  let sum = 0;
  for (let i = 0; i < out.length; i++) sum += out[i];
  return sum;
}

const simd = startKernel();

/** Converts by itself, to CIELAB D65: its fastest way, and two and a half times as fast as giving it CIELAB D50. */
const culoriDifference = differenceCiede2000();

/** Ways from bytes to the sum of all dE00, the same pixels for each. */
export const KERNELS: readonly {
  readonly name: string;
  /** Share of the pixels that is enough to time a slow one. */
  readonly share: number;
  readonly sum: (pairs: PixelPairs) => number;
}[] = [
  ...(simd === null
    ? []
    : [
        {
          name: "WebAssembly, vectors of 128 bits (`deltaE00Simd`)",
          share: 1,
          sum: (pairs: PixelPairs) =>
            sumOfPlanes(
              pairs,
              (...given) => lightToLabSimd(simd, ...given),
              (...given) => deltaE00Simd(simd, ...given),
            ),
        },
      ]),
  {
    name: "tables, typed arrays (`deltaE00Tables`)",
    share: 1,
    sum: (pairs) => sumOfPlanes(pairs, lightToLabTables, deltaE00Tables),
  },
  {
    name: "formula in double precision (`ciede2000`)",
    share: 0.1,
    sum: (pairs) =>
      eachPair(pairs, (r1, g1, b1, r2, g2, b2) => {
        const lab = (r: number, g: number, b: number) =>
          xyzD50ToLab(multiply3Vector(SRGB_TO_XYZ_D50, [TABLE[r], TABLE[g], TABLE[b]]));
        return ciede2000(lab(r1, g1, b1), lab(r2, g2, b2));
      }),
  },
  {
    name: "culori 4",
    share: 0.1,
    sum: (pairs) =>
      eachPair(pairs, (r1, g1, b1, r2, g2, b2) =>
        culoriDifference(
          { mode: "rgb", r: r1 / 255, g: g1 / 255, b: b1 / 255 },
          { mode: "rgb", r: r2 / 255, g: g2 / 255, b: b2 / 255 },
        ),
      ),
  },
  {
    name: "chroma-js 3",
    share: 0.1,
    sum: (pairs) =>
      eachPair(pairs, (r1, g1, b1, r2, g2, b2) =>
        chroma.deltaE(chroma(r1, g1, b1), chroma(r2, g2, b2)),
      ),
  },
];

function eachPair(
  { count, before, after }: PixelPairs,
  difference: (...codes: [number, number, number, number, number, number]) => number,
): number {
  let sum = 0;
  for (let i = 0, at = 0; i < count; i++, at += 3)
    sum += difference(
      before[at],
      before[at + 1],
      before[at + 2],
      after[at],
      after[at + 1],
      after[at + 2],
    );
  return sum;
}
