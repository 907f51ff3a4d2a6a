import { CHART24_SPECTRA } from "../../calibration/chart24-spectra.ts";
import { CHART24_PATCH_NAMES } from "../../calibration/chart24-patch-names.ts";
import type { Card, PatchSample } from "../../src/card/card.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { daylightD50, reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import { decodeSrgb, encodeSrgb } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { Random } from "../../src/numeric/random.ts";
import { seededRandom } from "../../src/numeric/random.ts";

/**
 * A before/after pair made from spectra, so that the true change of every ink is known: reflectances of the chart (mean of 30) and
 * of twelve inks on old paper meet a lamp and three sensors; the frame drifts between the two scans; the reference values of the
 * card are wrong by 0.8 dE00.
 */

const WAVELENGTHS = Array.from({ length: 36 }, (_, i) => 380 + 10 * i);

export interface Device {
  /** Peak, width (standard deviation), height of the bands of each sensor, in nm. */
  readonly sensors: readonly (readonly (readonly [
    peak: number,
    width: number,
    height: number,
  ])[])[];
  /** Drift of common gain, of the exponent and of the lamp's tilt; half of it for each channel's own gain. */
  readonly drift: number;
  /** Largest share of light that a gradient takes from one side of the frame to the other. */
  readonly gradient: number;
  readonly blackDrift: number;
  /** Light added everywhere, as a share of white: smallest and largest. */
  readonly flare: readonly [number, number];
  /** Exposure of the second frame apart by these shares, either way. */
  readonly exposure: readonly [number, number];
  /** Strength of an S-shaped tone curve on the coded value; 0 for a scanner. */
  readonly contrast: number;
  /** Light that reaches the sensor from a white patch before drift. */
  readonly white: number;
  /** Standard deviation of the mean of a patch or a region, as a share of white. */
  readonly noise: number;
}

/** Sensor peaks of a flatbed scanner; peaks and widths by judgement. */
export const SCANNER: Device = {
  sensors: [[[612, 25, 1]], [[540, 28, 1]], [[455, 25, 1]]],
  drift: 0.02,
  gradient: 0.006,
  blackDrift: 0.001,
  flare: [0, 0],
  exposure: [0, 0],
  contrast: 0,
  white: 0.88,
  noise: 0.0001,
};

/** Broad, overlapping sensors with a side band: our stand-in for measured phone sensitivities. */
export const PHONE: Device = {
  sensors: [
    [
      [600, 32, 1],
      [440, 22, 0.06],
    ],
    [[537, 40, 1]],
    [
      [458, 30, 1],
      [540, 30, 0.08],
    ],
  ],
  drift: 0,
  gradient: 0.02,
  blackDrift: 0,
  flare: [0.01, 0.02],
  exposure: [0.05, 0.12],
  contrast: 0.35,
  white: 0.75,
  noise: 0.0004,
};

/** Old groundwood: yellowed, darkening towards violet. Shape by judgement; Lab about 83, 3, 17. */
const OLD_PAPER = WAVELENGTHS.map((nm) => 0.12 + 0.6 / (1 + Math.exp(-(nm - 435) / 42)));

const band = (peak: number, width: number): number[] =>
  WAVELENGTHS.map((nm) => Math.exp(-(((nm - peak) / width) ** 2) / 2));
/** Optical densities of solid process inks, absorption bands by judgement. */
const YELLOW = band(430, 42).map((d) => 0.9 * d);
const MAGENTA = band(545, 38).map((d, i) => 0.95 * d + 0.22 * band(430, 40)[i]);
const CYAN = band(640, 62).map((d) => 0.95 * d + 0.06);
const BLACK = WAVELENGTHS.map(() => 1.05);

interface Region {
  readonly name: string;
  /** Density shares of yellow, magenta, cyan, black, and the area covered by the print (the rest is paper). */
  readonly inks: readonly [number, number, number, number];
  readonly cover: number;
}

export const REGIONS: readonly Region[] = [
  { name: "paper", inks: [0, 0, 0, 0], cover: 0 },
  { name: "yellow", inks: [1, 0, 0, 0], cover: 1 },
  { name: "magenta", inks: [0, 1, 0, 0], cover: 1 },
  { name: "cyan", inks: [0, 0, 1, 0], cover: 1 },
  { name: "red", inks: [1, 1, 0, 0], cover: 1 },
  { name: "green", inks: [1, 0, 1, 0], cover: 1 },
  { name: "blue", inks: [0, 1, 1, 0], cover: 1 },
  { name: "black", inks: [0, 0, 0, 1], cover: 1 },
  { name: "yellow tint", inks: [1, 0, 0, 0], cover: 0.5 },
  { name: "cyan tint", inks: [0, 0, 1, 0], cover: 0.4 },
  { name: "green tint", inks: [1, 0, 1, 0], cover: 0.5 },
  { name: "grey tint", inks: [0, 0, 0, 1], cover: 0.5 },
];

/** Share of each ink left after washing, and the lift of the paper's violet-blue absorption (0: none). */
export interface Wash {
  readonly left: readonly [number, number, number, number];
  readonly whitening: number;
}

export const NO_WASH: Wash = { left: [1, 1, 1, 1], whitening: 0 };
export const MAGENTA_FADED: Wash = { left: [1, 0.9, 1, 1], whitening: 0 };
export const ALL_FADED: Wash = { left: [0.85, 0.85, 0.85, 0.85], whitening: 0.15 };

function regionSpectrum({ inks, cover }: Region, { left, whitening }: Wash): number[] {
  return WAVELENGTHS.map((_, i) => {
    const paper = OLD_PAPER[i] + whitening * (0.75 - OLD_PAPER[i]);
    const density =
      inks[0] * left[0] * YELLOW[i] +
      inks[1] * left[1] * MAGENTA[i] +
      inks[2] * left[2] * CYAN[i] +
      inks[3] * left[3] * BLACK[i];
    // 2 % of the light is reflected at the surface of the ink and never passes through it.
    return paper * (1 - cover) + cover * (0.02 + (paper - 0.02) * 10 ** -density);
  });
}

interface Frame {
  readonly sensors: readonly Float64Array[];
  readonly gain: Triple;
  readonly exponent: number;
  readonly black: Triple;
  readonly gradient: readonly [number, number];
  readonly flare: number;
}

function frameOf(device: Device, random: Random, first: boolean): Frame {
  const either = (): number => (random.uniform() < 0.5 ? -1 : 1);
  const within = (most: number): number => most * (2 * random.uniform() - 1);
  const s = first ? 0 : device.drift;
  const [least, most] = device.exposure;
  const exposure = first ? 0 : either() * (least + (most - least) * random.uniform());
  const common = 1 + within(s) + exposure;
  const tilt = within(s);
  const light = daylightD50();
  const sensors = device.sensors.map((bands) => {
    const sensor = Float64Array.from(WAVELENGTHS, (nm, i) => {
      const power = light[2 * i] * (1 + (tilt * (nm - 555)) / 175);
      return (
        power * bands.reduce((sum, [p, w, h]) => sum + h * Math.exp(-(((nm - p) / w) ** 2) / 2), 0)
      );
    });
    return sensor;
  });
  const own = (): number => common * (1 + within(s / 2));
  const angle = 2 * Math.PI * random.uniform();
  return {
    sensors,
    gain: [own(), own(), own()],
    exponent: 1 + within(s),
    black: [0, 1, 2].map(() =>
      first ? 0 : device.blackDrift * random.normal(),
    ) as unknown as Triple,
    gradient: [device.gradient * Math.cos(angle), device.gradient * Math.sin(angle)],
    flare: device.flare[0] + (device.flare[1] - device.flare[0]) * random.uniform(),
  };
}

/** Decoded linear value that the frame holds for a reflectance at a place (0..1 across, 0..1 down). */
function capture(
  device: Device,
  frame: Frame,
  whiteSums: readonly number[],
  reflectance: readonly number[],
  at: readonly [number, number],
  random: Random,
): Triple {
  const shade = 1 + frame.gradient[0] * (at[0] - 0.5) + frame.gradient[1] * (at[1] - 0.5);
  return frame.sensors.map((sensor, c) => {
    let light = 0;
    for (let i = 0; i < sensor.length; i++) light += sensor[i] * reflectance[i];
    light = (light / whiteSums[c]) * frame.gain[c] * shade + frame.flare;
    light = Math.max(0, device.white * light) ** frame.exponent;
    light += frame.black[c] + device.noise * random.normal();
    if (device.contrast === 0) return light;
    const code = encodeSrgb(Math.max(0, light));
    // An S on the coded value: darker below the middle, lighter above.
    const curved = code - (device.contrast * Math.sin(2 * Math.PI * code)) / (2 * Math.PI);
    return decodeSrgb(Math.round(255 * 16 * curved) / (255 * 16));
  }) as unknown as Triple;
}

export interface SimulatedRegion {
  readonly name: string;
  readonly before: Triple;
  readonly after: Triple;
  readonly trueBefore: Triple;
  readonly trueAfter: Triple;
  readonly trueDeltaE00: number;
}

export interface SimulatedPair {
  readonly card: Card;
  readonly before: readonly PatchSample[];
  readonly after: readonly PatchSample[];
  readonly regions: readonly SimulatedRegion[];
  /** A white strip that was not washed, at the far side of the frame: its apparent change is the lighting term u. */
  readonly control: { readonly before: Triple; readonly after: Triple };
}

/** The card as its maker describes it: true Lab, wrong by a random error of 0.8 dE00 on average. */
function cardWithErrors(random: Random): Card {
  const patches = CHART24_SPECTRA.map((reflectance, i) => {
    const [L, a, b] = xyzD50ToLab(reflectanceToXyzD50(reflectance));
    const neutral = i >= 18;
    const size = neutral ? 0.4 : 0.8;
    return {
      name: CHART24_PATCH_NAMES[i],
      lab: [
        L + 0.6 * random.normal(),
        a + size * random.normal(),
        b + size * random.normal(),
      ] as const,
      neutral,
    };
  });
  return {
    name: "simulated",
    title: "24 patches",
    rows: 4,
    columns: 6,
    patches,
    pitchMm: null,
    measured: true,
    source: "simulated",
  };
}

/** @param seed Another seed, another pair. */
export function simulatedPair(device: Device, wash: Wash, seed: number): SimulatedPair {
  const random = seededRandom(seed);
  const card = cardWithErrors(random);
  const frames = [frameOf(device, random, true), frameOf(device, random, false)];
  // Gain and lamp of the first frame define white: what the second one does to it is drift.
  const whiteSums = frames[0].sensors.map((sensor) =>
    sensor.reduce((sum, value) => sum + value, 0),
  );
  const samplesOf = (frame: Frame): PatchSample[] =>
    CHART24_SPECTRA.map((reflectance, i) => ({
      name: CHART24_PATCH_NAMES[i],
      // The card lies along the lower edge.
      linear: capture(
        device,
        frame,
        whiteSums,
        reflectance,
        [0.1 + (0.3 * (i % 6)) / 5, 0.78 + (0.18 * Math.floor(i / 6)) / 3],
        random,
      ),
      deviation: [0.002, 0.002, 0.002],
      clippedHigh: 0,
      clippedLow: 0,
      pixels: 1600,
    }));
  const before = samplesOf(frames[0]);
  const after = samplesOf(frames[1]);
  const regions = REGIONS.map((region, i): SimulatedRegion => {
    const at = [0.15 + (0.7 * (i % 4)) / 3, 0.1 + (0.5 * Math.floor(i / 4)) / 2] as const;
    const spectra = [regionSpectrum(region, NO_WASH), regionSpectrum(region, wash)];
    const trueBefore = xyzD50ToLab(reflectanceToXyzD50(spectra[0]));
    const trueAfter = xyzD50ToLab(reflectanceToXyzD50(spectra[1]));
    return {
      name: region.name,
      before: capture(device, frames[0], whiteSums, spectra[0], at, random),
      after: capture(device, frames[1], whiteSums, spectra[1], at, random),
      trueBefore,
      trueAfter,
      trueDeltaE00: ciede2000(trueBefore, trueAfter),
    };
  });
  const [first, second] = frames.map((frame) =>
    capture(device, frame, whiteSums, CHART24_SPECTRA[18], [0.9, 0.05], random),
  );
  return { card, before, after, regions, control: { before: first, after: second } };
}
