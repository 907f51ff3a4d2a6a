import { afterAll, expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { measureTiles } from "../../src/register/measureTiles.ts";
import type { NodeField } from "../../src/register/nodeField.ts";
import { PASSES } from "../../src/register/passes.ts";
import { structureImage } from "../../src/register/structureImage.ts";
import { tileWorkers } from "../../src/register/tileWorkers.ts";
import type { WorkingGrey } from "../../src/register/workingGrey.ts";

const SIDE = 300;
const MM = 25.4 / 96;
const random = seededRandom(5);

function blobs(shift: number): WorkingGrey {
  const pixels = new Uint8Array(SIDE * SIDE);
  for (let y = 0, i = 0; y < SIDE; y++)
    for (let x = 0; x < SIDE; x++, i++)
      pixels[i] =
        128 +
        50 * Math.sin((x + shift) / 3.1) * Math.cos(y / 4.3) +
        40 * Math.sin((x + shift) * 0.071 * (1 + y / SIDE)) +
        4 * random.normal();
  return {
    pixels,
    outside: null,
    width: SIDE,
    height: SIDE,
    left: 0,
    top: 0,
    pitchX: MM,
    pitchY: MM,
  };
}

const field: NodeField = {
  width: 12,
  height: 12,
  left: 6,
  top: 6,
  mmPerCell: 6,
  dx: new Float64Array(144),
  dy: new Float64Array(144),
};
const map = { affine: { a: 1, b: 0, c: 0, d: 1, tx: 0.1, ty: 0 }, field };
const active = Uint8Array.from({ length: 144 }, (_, node) => (node % 12 < 10 && node > 30 ? 1 : 0));
const excluded = Uint8Array.from({ length: SIDE * SIDE }, (_, i) => (i % SIDE < 40 ? 1 : 0));
const pass = PASSES[1];

const pools = [1, 2].map((count) => tileWorkers(count));
afterAll(() => Promise.all(pools.map((pool) => pool.end())));

test("one or two threads, or none: the same bytes", async () => {
  const [before, after] = [blobs(0), blobs(2)];
  const images = [
    structureImage(before, excluded, pass.radiusMm),
    structureImage(after, null, pass.radiusMm),
  ] as const;
  const direct = measureTiles(...images, map, active, pass);
  // Something was measured, on both halves.
  expect(direct.ncc.subarray(36, 60).some((ncc) => ncc > 0.5)).toBe(true);
  expect(direct.ncc.subarray(108, 140).some((ncc) => ncc > 0.5)).toBe(true);
  for (const pool of pools) {
    const threaded = await Promise.all([
      pool.structure(before, excluded, pass.radiusMm),
      pool.structure(after, null, pass.radiusMm),
    ]);
    expect(threaded).toEqual(images);
    expect(await pool.measure(...threaded, map, active, pass)).toEqual(direct);
  }
});

test("no node on the sheet: nothing is measured", async () => {
  const image = structureImage(blobs(0), null, pass.radiusMm);
  const measured = await pools[1].measure(image, image, map, new Uint8Array(144), pass);
  expect(measured.possible.every((possible) => possible === 0)).toBe(true);
  expect(measured.step.every(Number.isNaN)).toBe(true);
});
