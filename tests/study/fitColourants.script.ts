/**
 * Derives the shapes of `calibration/colourants.ts`: `npx tsx tests/study/fitColourants.script.ts`. Bands and dyes are fitted together to the
 * table of responses, the variances inside the bands, the flattening at high density and the angles between columns, with weak
 * priors that keep shapes ordinary. Prints the shapes and the largest miss of each kind.
 */
import {
  BAND_COUNT,
  BAND_FIRST_NM,
  BAND_STEP_NM,
  type Dye,
  DYES,
} from "../../calibration/colourants.ts";
import { fitSmooth } from "../../src/numeric/fitSmooth.ts";
import { RESPONSES } from "../support/responses.ts";

const NM = Array.from({ length: BAND_COUNT }, (_, i) => BAND_FIRST_NM + i * BAND_STEP_NM);
const NAMES = Object.keys(DYES) as readonly Dye[];

/** Starting value and prior spread (sd) of every number. Heights are taken without their sign. */
type Knob = readonly [start: number, sd: number];

// Bands: three main bells, then lobes (blue in r; red and blue in g; green in b). Then soil's reference and carbon's exponent.
// prettier-ignore
const KNOBS: readonly Knob[] = [
  [600, 15], [32, 12], [38, 12], [0.02, 0.075],
  [540, 12], [38, 12], [38, 12], [0.15, 0.3], [0.1, 0.3],
  [460, 12], [30, 12], [32, 9], [0.1, 0.3],
  [450, 22], [0.9, 0.45],
  ...NAMES.flatMap((name): readonly Knob[] => {
    const [left, right, height, below, width] = {
      red: [55, 28, 0.3, 45, 25],
      pink: [22, 16, 0.3, 38, 18],
      blue: [38, 22, 0.3, 50, 25],
      violet: [30, 22, 0.5, 45, 25],
      yellow: [35, 38, 0.1, 40, 25],
    }[name];
    return [[0, 4.5], [left, 22], [right, 15], [height, 0.3], [below, 22], [width, 15]];
  }),
];

const bell = (nm: number, centre: number, left: number, right: number) =>
  Math.exp(-0.5 * ((nm - centre) / (nm < centre ? left : right)) ** 2);
const dot = (a: readonly number[], b: readonly number[]) =>
  a.reduce((sum, x, i) => sum + x * b[i], 0);

function modelOf(at: Float64Array) {
  const v = KNOBS.map(([start], i) => start + at[i]);
  const sums = [
    (nm: number) => bell(nm, v[0], v[1], v[2]) + Math.abs(v[3]) * bell(nm, 445, 25, 25),
    (nm: number) =>
      bell(nm, v[4], v[5], v[6]) +
      Math.abs(v[7]) * bell(nm, 610, 30, 30) +
      Math.abs(v[8]) * bell(nm, 450, 30, 30),
    (nm: number) => bell(nm, v[9], v[10], v[11]) + Math.abs(v[12]) * bell(nm, 540, 35, 35),
  ];
  const bands = sums.map((shape) => {
    const raw = NM.map(shape);
    const whole = raw.reduce((a, b) => a + b, 0);
    return raw.map((x) => x / whole);
  });
  const soil = (slope: number) => NM.map((nm) => Math.exp(-slope * (nm - v[13])));
  const spectra = new Map<string, readonly number[]>([
    ["soil", soil(0.014)],
    ["carbon", NM.map((nm) => (550 / nm) ** v[14])],
  ]);
  const slopesAtPeak = NAMES.map((name, k) => {
    const [by, left, right, height, below, width] = v.slice(15 + 6 * k, 21 + 6 * k);
    const main = DYES[name].peakNm + by;
    const shape = (nm: number) =>
      bell(nm, main, left, right) + Math.abs(height) * bell(nm, main - below, width, width);
    const peak = shape(DYES[name].peakNm);
    spectra.set(
      name,
      NM.map((nm) => shape(nm) / peak),
    );
    return (shape(DYES[name].peakNm + 1) - shape(DYES[name].peakNm - 1)) / peak;
  });
  const column = (spectrum: readonly number[]) => bands.map((band) => dot(band, spectrum));
  return { v, bands, soil, spectra, slopesAtPeak, column };
}

const angle = (a: readonly number[], b: readonly number[]) =>
  (Math.acos(dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b))) * 180) / Math.PI;

/** Every miss with the name of its kind and the spread it is weighed by. */
function misses(at: Float64Array): { kind: string; miss: number; sd: number }[] {
  const { bands, soil, spectra, slopesAtPeak, column } = modelOf(at);
  const out: { kind: string; miss: number; sd: number }[] = [];
  const put = (kind: string, miss: number, sd: number) => out.push({ kind, miss, sd });
  slopesAtPeak.forEach((slope) => put("slope at peak", slope, 0.0005));
  for (const { name, rgb, strongest, v, broad } of RESPONSES) {
    const e = spectra.get(name) ?? [];
    column(e).forEach((value, c) => put("response", value - rgb[c], 0.006));
    const band = bands[strongest];
    const weak = dot(band, e);
    const square = dot(
      band,
      e.map((x) => x * x),
    );
    put("variance", square / weak ** 2 - 1 - v, 0.02);
    [0.5, 1, 2].forEach((od, i) => {
      const light = dot(
        band,
        e.map((x) => 10 ** ((-x * od) / weak)),
      );
      put("flattening", -Math.log10(light) / od - broad[i + 2], 0.03);
    });
  }
  const of = (name: string) => column(spectra.get(name) ?? []);
  put("angle", angle(of("soil"), of("red")) - 18, 0.7);
  put("angle", angle(of("soil"), of("yellow")) - 15, 0.7);
  put("angle", angle(of("soil"), of("blue")) - 66, 0.7);
  put("angle", angle(of("red"), of("blue")) - 63, 0.7);
  put("angle", angle(of("soil"), of("carbon")) - 27, 0.7);
  put("angle", angle(column(soil(0.009)), of("red")) - 15, 0.7);
  put("angle", angle(column(soil(0.019)), of("yellow")) - 9.5, 0.7);
  KNOBS.forEach(([, sd], i) => put("prior", at[i], sd));
  return out;
}

let at: Float64Array = new Float64Array(KNOBS.length);
let last = Infinity;
const count = misses(at).length;
for (let round = 0; round < 20; round++) {
  const { parameters, sumOfSquares } = fitSmooth(
    (point, out) => misses(point).forEach(({ miss, sd }, i) => (out[i] = miss / sd)),
    count,
    at,
  );
  at = parameters;
  if (last - sumOfSquares < 1e-6 * last) break;
  last = sumOfSquares;
}

const { v } = modelOf(at);
const list = (values: readonly number[]) => values.map((x) => x.toFixed(3)).join("  ");
console.log(`sum of squares ${last.toFixed(2)} over ${count} residuals`);
console.log(`r: centre left right, blue lobe      ${list(v.slice(0, 4))}`);
console.log(`g: centre left right, red, blue lobe ${list(v.slice(4, 9))}`);
console.log(`b: centre left right, green lobe     ${list(v.slice(9, 13))}`);
console.log(`soil reference nm, carbon exponent   ${list(v.slice(13, 15))}`);
NAMES.forEach((name, k) => {
  const [by, left, right, height, below, width] = v.slice(15 + 6 * k, 21 + 6 * k);
  const centre = DYES[name].peakNm + by;
  console.log(
    `${name.padEnd(7)} main ${list([centre, left, right])} shoulder ${list([height, centre - below, width])}`,
  );
});
for (const kind of ["response", "variance", "flattening", "angle", "slope at peak"]) {
  const largest = Math.max(
    ...misses(at)
      .filter((one) => one.kind === kind)
      .map(({ miss }) => Math.abs(miss)),
  );
  console.log(`largest miss, ${kind}: ${largest.toFixed(4)}`);
}
