import type { Raster } from "../../src/raster/raster.ts";
import { framePixels } from "./frame.ts";
import { framePainter } from "./paintFrame.ts";
import type { FrameScene } from "./paintFrame.ts";
import { encoder, scannerObserver } from "./scanner.ts";
import type { Scanner } from "./scanner.ts";

/** A three-tap blur along a row of interleaved triples; the border repeats. */
function blurRow(row: Float32Array, neighbour: number, out: Float32Array): void {
  const width = row.length / 3;
  for (let x = 0; x < width; x++) {
    const left = 3 * Math.max(0, x - 1);
    const right = 3 * Math.min(width - 1, x + 1);
    for (let c = 0; c < 3; c++)
      out[3 * x + c] =
        (1 - 2 * neighbour) * row[3 * x + c] + neighbour * (row[left + c] + row[right + c]);
  }
}

/** A frame as the scanner's file holds it. Same scene and scanner, same bytes. */
export function renderFrame(scene: FrameScene, scanner: Scanner): Raster {
  const [width, height] = framePixels(scene);
  const data =
    scanner.bitDepth === 8
      ? new Uint8Array(3 * width * height)
      : new Uint16Array(3 * width * height);
  const paint = framePainter(scene, scannerObserver);
  const encode = encoder(scanner, width, height);
  const b = scanner.blur;
  const raw = new Float32Array(3 * width);
  const ring = [0, 1, 2].map(() => new Float32Array(3 * width));
  const load = (y: number): void => {
    paint(y, raw);
    blurRow(raw, b, ring[y % 3]);
  };
  load(0);
  if (height > 1) load(1);
  const row = new Float32Array(3 * width);
  for (let y = 0; y < height; y++) {
    const above = ring[Math.max(0, y - 1) % 3];
    const here = ring[y % 3];
    const below = ring[Math.min(height - 1, y + 1) % 3];
    for (let i = 0; i < row.length; i++) row[i] = (1 - 2 * b) * here[i] + b * (above[i] + below[i]);
    encode(row, y, data);
    if (y + 2 < height) load(y + 2);
  }
  return { width, height, bitDepth: scanner.bitDepth, data };
}
