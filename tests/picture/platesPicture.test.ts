import { describe, expect, test } from "vitest";
import { HEAT_MAP_COLOURS, HEAT_MAP_HATCHING } from "../../src/picture/heatMap.ts";
import { plateLossColour, platesPicture } from "../../src/picture/platesPicture.ts";
import { sharp } from "../../src/raster/sharp.ts";

const plates = [
  { id: "red", verdict: "lost" },
  { id: "blue", verdict: "none-shown" },
] as const;
const tiles = {
  columns: 3,
  rows: 1,
  plates: { red: [0.1, null, 0.5], blue: [null, null, null] },
};

async function drawn() {
  const png = await platesPicture(plates, tiles);
  const { data, info } = await sharp(png).raw().toBuffer({ resolveWithObject: true });
  const tones = (left: number, width: number) => {
    const found = new Set<string>();
    for (let y = 16; y < 40; y++)
      for (let x = left; x < left + width; x++) {
        const at = info.channels * (y * info.width + x);
        found.add([data[at], data[at + 1], data[at + 2]].join());
      }
    return [...found].sort();
  };
  return { png, tones };
}
const both = ({ ground, line }: { ground: readonly number[]; line: readonly number[] }) =>
  [ground.join(), line.join()].sort();

describe("map of the plates", () => {
  test("a tile's colour is that of its loss, beyond the scale its own colour, hatched where the plate is not printed", async () => {
    const { tones } = await drawn();
    expect(tones(16, 24)).toEqual([plateLossColour(0.1).join()]);
    expect(tones(40, 24)).toEqual(both(HEAT_MAP_HATCHING.notMeasured));
    expect(tones(64, 24)).toEqual([HEAT_MAP_COLOURS.beyondScale.join()]);
  });

  test("a plate of which nothing is claimed is pale lines all over", async () => {
    const { tones } = await drawn();
    expect(tones(104, 72)).toEqual(both(HEAT_MAP_HATCHING.belowFloor));
  });

  test("same tiles, same bytes", async () => {
    expect((await drawn()).png.equals((await drawn()).png)).toBe(true);
  });
});
