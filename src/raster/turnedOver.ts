import type { Raster } from "./raster.ts";

/** A picture turned by half a turn. */
export function turnedOver(raster: Raster): Raster {
  const { width, height, bitDepth, data } = raster;
  const turned = bitDepth === 8 ? new Uint8Array(data.length) : new Uint16Array(data.length);
  for (let i = 0, j = 3 * (width * height - 1); j >= 0; i += 3, j -= 3) {
    turned[i] = data[j];
    turned[i + 1] = data[j + 1];
    turned[i + 2] = data[j + 2];
  }
  return { ...raster, data: turned };
}
