import { CHART24_SPECTRA } from "../../calibration/chart24-spectra.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { invert3, type Matrix3 } from "../../src/numeric/matrix3.ts";
import type { Raster } from "../../src/raster/raster.ts";
import type { BackingMap } from "./backingMap.ts";
import { type Spectrum, spectrumOf } from "./bands.ts";
import { type Camera, type Eye, eyeOf, type Light } from "./camera.ts";
import { exposed, type Exposure } from "./exposed.ts";
import { type Liquid, opticsOf } from "./liquids.ts";
import { type ChartInScene, paintChart } from "./paintChart.ts";

/** The jar as it stands before the backing; millimetres on the backing's plane. */
export interface JarInScene {
  readonly shape: "flat" | "round";
  /** Outer edges. */
  readonly leftMm: number;
  readonly rightMm: number;
  readonly wallMm: number;
  readonly topMm: number;
  /** Where liquid and air meet. */
  readonly levelMm: number;
  /** Inner bottom. */
  readonly bottomMm: number;
  /** Path of the light through the liquid; round: inner diameter, which the edges and walls must agree with. */
  readonly insideCm: number;
  readonly passes: 1 | 2;
  /** How much larger the backing looks through the liquid: 1 + path (1 - 1/1.33) / distance of the camera. Default 1.02. */
  readonly magnification?: number;
}

export interface JarScene {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly backing: BackingMap;
  /** Takes millimetres on the backing to pixels. */
  readonly toPixels: Matrix3;
  readonly jar: JarInScene | null;
  readonly liquid: Liquid;
  readonly camera?: Camera;
  readonly light?: Light;
  /** Change of the light across the whole frame, as a share: along x, along y. Default 0, 0. */
  readonly gradient?: readonly [number, number];
  readonly chart?: ChartInScene;
  readonly exposure?: Exposure;
}

const STRIPE_WHITE = spectrumOf((nm) => 0.84 - 0.04 * Math.exp(-(nm - 400) / 40));
const STRIPE_BLACK = spectrumOf(() => 0.045);
/** Two outer surfaces of glass and a trace of green. */
const GLASS_FILLED = spectrumOf((nm) => 0.91 - 0.015 * ((nm - 550) / 150) ** 2);
/** Empty, two inner surfaces more. */
const GLASS_EMPTY = spectrumOf((nm) => 0.845 - 0.015 * ((nm - 550) / 150) ** 2);
/** Lens flare, everywhere; reflections off the glass, on the jar only. In units of a perfect white. */
const FLARE = 0.008;
const REFLECTION = 0.004;
const WALL_BEHIND = 0.38;

/** Share of the stripes' contrast left, and light added, where glass is seen edge-on and in the meniscus. */
const EDGE_CONTRAST = 0.35;
const EDGE_LIGHT = 0.12;
const MENISCUS_MM = 1.2;

/**
 * What a place adds up to: base + w sharp + w blurred, w = share of white. Three numbers of base, of sharp, of blurred; flat because
 * it is read for every pixel.
 */
type Transfer = Float64Array;

function transfer(base: Triple, direct: Triple, forward: Triple): Transfer {
  return Float64Array.of(...base, ...direct, ...forward);
}

/**
 * A photo of the station by a forward model of its own: 31 bands, a jar that absorbs and scatters, a camera in a light, a tone
 * curve, noise. It shares no code with the reader of jar photos.
 */
export function renderJarPhoto(scene: JarScene): Raster {
  const { widthPixels: width, heightPixels: height, backing, jar } = scene;
  const eye = eyeOf(scene.camera ?? "one", scene.light ?? "daylight");
  const open = openTransfer(eye);
  const empty = jar && glassTransfer(eye, GLASS_EMPTY);
  const filled = jar && liquidTransfers(eye, scene.liquid, jar);
  const wall = plus(eye.see(spectrumOf(() => WALL_BEHIND)), FLARE);
  const [h0, h1, h2, h3, h4, h5, h6, h7, h8] = invert3(scene.toPixels);
  const linear = new Float32Array(3 * width * height);
  const [gradientX, gradientY] = scene.gradient ?? [0, 0];
  const magnification = jar?.magnification ?? 1.02;
  const midX = jar ? (jar.leftMm + jar.rightMm) / 2 : 0;
  const midY = (backing.height / backing.pixelsPerMm) * 0.5;

  for (let y = 0; y < height; y++) {
    const lightOfRow = 1 - gradientX / 2 + gradientY * (y / height - 0.5);
    for (let x = 0; x < width; x++) {
      const w = h6 * x + h7 * y + h8;
      const u = (h0 * x + h1 * y + h2) / w;
      const v = (h3 * x + h4 * y + h5) / w;
      const light = lightOfRow + (gradientX * x) / width;
      const out = 3 * (y * width + x);
      let at = open;
      let edge = false;
      let su = u;
      let sv = v;
      if (jar && u >= jar.leftMm && u < jar.rightMm && v >= jar.topMm && v < jar.bottomMm + 5) {
        const fromWall = Math.min(u - jar.leftMm, jar.rightMm - u);
        edge =
          fromWall < jar.wallMm || v >= jar.bottomMm || Math.abs(v - jar.levelMm) < MENISCUS_MM;
        if (v > jar.levelMm && filled) {
          at = filled(u);
          su = midX + (u - midX) / magnification;
          sv = midY + (v - midY) / magnification;
        } else if (empty) at = empty;
      }
      const mx = su * backing.pixelsPerMm - 0.5;
      const my = sv * backing.pixelsPerMm - 0.5;
      if (mx < 0 || my < 0 || mx > backing.width - 2 || my > backing.height - 2) {
        linear[out] = light * wall[0];
        linear[out + 1] = light * wall[1];
        linear[out + 2] = light * wall[2];
        continue;
      }
      const sharp = bilinear(backing.sharp, backing.width, mx, my);
      const blurred = at === open ? 0 : bilinear(backing.blurred, backing.width, mx, my);
      const contrast = edge ? EDGE_CONTRAST : 1;
      const added = edge ? EDGE_LIGHT : 0;
      const red = sharp * at[3] + blurred * at[6];
      const green = sharp * at[4] + blurred * at[7];
      const blue = sharp * at[5] + blurred * at[8];
      linear[out] = light * (at[0] + added + contrast * red);
      linear[out + 1] = light * (at[1] + added + contrast * green);
      linear[out + 2] = light * (at[2] + added + contrast * blue);
    }
  }
  if (scene.chart) {
    const colours = CHART24_SPECTRA.map((full) => plus(eye.see(full.slice(2, 33)), FLARE));
    paintChart(linear, { width, height }, scene.chart, colours, [gradientX, gradientY]);
  }
  return exposed(linear, width, height, scene.exposure);
}

function bilinear(map: Float32Array, width: number, x: number, y: number): number {
  const column = Math.floor(x);
  const row = Math.floor(y);
  const fx = x - column;
  const fy = y - row;
  const i = row * width + column;
  const top = map[i] + fx * (map[i + 1] - map[i]);
  const bottom = map[i + width] + fx * (map[i + width + 1] - map[i + width]);
  return top + fy * (bottom - top);
}

const plus = (a: Triple, b: number): Triple => [a[0] + b, a[1] + b, a[2] + b];

function openTransfer(eye: Eye): Transfer {
  return transfer(
    plus(eye.see(STRIPE_BLACK), FLARE),
    eye.see(STRIPE_WHITE.map((white, band) => white - STRIPE_BLACK[band])),
    [0, 0, 0],
  );
}

function glassTransfer(eye: Eye, glass: Spectrum): Transfer {
  return transfer(
    plus(eye.see(STRIPE_BLACK.map((black, band) => black * glass[band])), FLARE + REFLECTION),
    eye.see(STRIPE_WHITE.map((w, band) => (w - STRIPE_BLACK[band]) * glass[band])),
    [0, 0, 0],
  );
}

/** Through a path of liquid: stripes by unscattered and by forward-scattered light, the black's own light, the veil. */
function throughLiquid(eye: Eye, liquid: Liquid, pathCm: number, passes: number): Transfer {
  const { absorption, scattering, particles } = opticsOf(liquid);
  const lost = scattering.map((s) => (1 - particles.forwardShare) * s);
  const unscattered = absorption.map((a, i) => Math.exp(-passes * (a + scattering[i]) * pathCm));
  const arriving = absorption.map((a, i) => Math.exp(-passes * (a + lost[i]) * pathCm));
  const veil = absorption.map((a, i) => {
    const k = a + lost[i];
    const depth = k > 0 ? (1 - Math.exp(-2 * k * pathCm)) / (2 * k) : pathCm;
    return particles.veil * scattering[i] * depth * STRIPE_WHITE[i];
  });
  const contrast = STRIPE_WHITE.map((w, i) => (w - STRIPE_BLACK[i]) * GLASS_FILLED[i]);
  return transfer(
    plus(
      eye.see(veil.map((v, i) => v + STRIPE_BLACK[i] * GLASS_FILLED[i] * arriving[i])),
      FLARE + REFLECTION,
    ),
    eye.see(contrast.map((c, i) => c * unscattered[i])),
    eye.see(contrast.map((c, i) => c * (arriving[i] - unscattered[i]))),
  );
}

/** The transfer at each place across the jar: one for a flat jar, a table over the chord for a round one. */
function liquidTransfers(eye: Eye, liquid: Liquid, jar: JarInScene): (u: number) => Transfer {
  if (jar.shape === "flat") {
    const one = throughLiquid(eye, liquid, jar.insideCm, jar.passes);
    return () => one;
  }
  const steps = 64;
  const table = Array.from({ length: steps + 1 }, (_, i) =>
    throughLiquid(eye, liquid, (jar.insideCm * i) / steps, jar.passes),
  );
  const radius = (jar.rightMm - jar.leftMm) / 2 - jar.wallMm;
  const middle = (jar.leftMm + jar.rightMm) / 2;
  return (u) => {
    const chord = Math.sqrt(Math.max(0, 1 - ((u - middle) / radius) ** 2));
    return table[Math.round(steps * chord)];
  };
}

/**
 * What a faultless reader would report of a liquid in this camera and light: decadic absorbance per cm of linear sRGB values mixed
 * by `mix`, white balanced on the stripes, particles left out.
 * @param mix Row-major 3 x 3.
 */
export function trueAbsorbancePerCm(
  liquid: Liquid,
  pathCm: number,
  mix: readonly (readonly number[])[],
  {
    camera = "one",
    light = "daylight",
    passes = 1,
  }: {
    readonly camera?: Camera | undefined;
    readonly light?: Light | undefined;
    readonly passes?: 1 | 2;
  } = {},
): Triple {
  const eye = eyeOf(camera, light);
  const { absorption } = opticsOf(liquid);
  const seen = (through: Spectrum): Triple =>
    eye.see(STRIPE_WHITE.map((w, i) => (w - STRIPE_BLACK[i]) * GLASS_FILLED[i] * through[i]));
  const white = eye.see(STRIPE_WHITE);
  const mixed = (linear: Triple): number[] =>
    mix.map((row) => row.reduce((sum, weight, c) => sum + (weight * linear[c]) / white[c], 0));
  const fresh = mixed(seen(spectrumOf(() => 1)));
  const spent = mixed(seen(absorption.map((a) => Math.exp(-passes * a * pathCm))));
  return [0, 1, 2].map(
    (c) => -Math.log10(spent[c] / fresh[c]) / (passes * pathCm),
  ) as unknown as Triple;
}
