import { CHART24_SPECTRA } from "../../calibration/chart24-spectra.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { type Spectrum, spectrumOf } from "./bands.ts";
import { type Camera, eyeOf, type Light } from "./camera.ts";
import { exposed, type Exposure } from "./exposed.ts";
import { noiseStream } from "./noise.ts";
import { type ChartInScene, paintChart } from "./paintChart.ts";

export interface SpotInScene {
  /** Middle, pixels. */
  readonly at: readonly [number, number];
  readonly radiusPixels: number;
  /** What the drop has brought into the blotter: optical density added per band, light passing twice. */
  readonly density: Spectrum;
}

export interface BlotterScene {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Left, top, right, bottom of the blotter, pixels. */
  readonly blotter: readonly [number, number, number, number];
  readonly spots: readonly SpotInScene[];
  readonly chart: ChartInScene;
  readonly camera?: Camera;
  readonly light?: Light;
  readonly gradient?: readonly [number, number];
  readonly exposure?: Exposure;
}

const DRY = spectrumOf((nm) => 0.83 - 0.1 * Math.exp(-(nm - 400) / 60));

/** Water fills the pores: less scattering, a darker and slightly warmer paper. */
export const WET: Spectrum = DRY.map((value, band) => value * (0.8 + 0.0006 * band));

/** What a wet spot of the liquid alone, or with something in it, reflects. */
export function wetReflectance(density: Spectrum): Spectrum {
  return WET.map((value, band) => value * 10 ** -density[band]);
}

const TABLE = 0.25;
const SOFT_RIM = 0.12;
const FIBRE = 0.006;

/** A photo of a blotter test: wet spots on a blotter beside the 24-patch card. */
export function renderBlotterPhoto(scene: BlotterScene): Raster {
  const { widthPixels: width, heightPixels: height, spots } = scene;
  const eye = eyeOf(scene.camera ?? "one", scene.light ?? "daylight");
  const dry = eye.see(DRY);
  const table = eye.see(spectrumOf(() => TABLE));
  const wet = spots.map((spot) => eye.see(wetReflectance(spot.density)));
  const [left, top, right, bottom] = scene.blotter;
  const [gradientX, gradientY] = scene.gradient ?? [0, 0];
  const fibre = noiseStream((scene.exposure?.seed ?? 1) + 77);
  const linear = new Float32Array(3 * width * height);
  const grains = new Float32Array(width);
  for (let y = 0; y < height; y++) {
    fibre(grains);
    for (let x = 0; x < width; x++) {
      const light = 1 + gradientX * (x / width - 0.5) + gradientY * (y / height - 0.5);
      const out = 3 * (y * width + x);
      const onBlotter = x >= left && x < right && y >= top && y < bottom;
      const grain = 1 + FIBRE * grains[x];
      for (let c = 0; c < 3; c++) {
        let value = onBlotter ? dry[c] : table[c];
        if (onBlotter)
          spots.forEach(({ at, radiusPixels }, s) => {
            const r = Math.hypot(x - at[0], y - at[1]) / radiusPixels;
            const share = Math.min(1, Math.max(0, (1 + SOFT_RIM / 2 - r) / SOFT_RIM));
            value += share * (wet[s][c] - value);
          });
        linear[out + c] = light * grain * value;
      }
    }
  }
  const colours = CHART24_SPECTRA.map((full) => eye.see(full.slice(2, 33)));
  paintChart(linear, { width, height }, scene.chart, colours, [gradientX, gradientY]);
  return exposed(linear, width, height, scene.exposure);
}
