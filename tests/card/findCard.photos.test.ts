import type { Point } from "../../src/numeric/point.ts";
import { readFileSync } from "node:fs";
import { afterAll, describe, expect, test } from "vitest";
import { CARDS } from "../../src/card/cards.ts";
import { findCard } from "../../src/card/findCard.ts";
import { MATCH_ACCEPTED } from "../../src/card/matchResidual.ts";
import { placeCard } from "../../src/card/placeCard.ts";
import { samplePatches } from "../../src/card/samplePatches.ts";
import { LastrinseError } from "../../src/errors.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { closeVision } from "../../src/vision/pool.ts";
import { sharedData, sharedDataAvailable } from "../support/sharedData.ts";
import { worstCentreError } from "../support/worstCentreError.ts";

/** Published photos of charts; where the patches are was found by another program and checked by eye, to 0.06 pitch. */
interface Photo {
  readonly file: string;
  readonly centres: readonly Point[];
  readonly corners: { readonly outer: Record<string, Point> };
}

const available = sharedDataAvailable("charts/corners.json");
const photos = available
  ? (JSON.parse(readFileSync(sharedData("charts/corners.json"), "utf8")) as { images: Photo[] })
      .images
  : [];
const [card] = CARDS;

afterAll(closeVision);

const rasters = new Map<string, Promise<Raster>>();

/** Each photo is decoded once. */
function read({ file }: Photo): Promise<Raster> {
  let raster = rasters.get(file);
  if (raster === undefined) {
    raster = readScan(sharedData(`charts/${file}`)).then((scan) => scan.raster);
    rasters.set(file, raster);
  }
  return raster;
}

function mirrored({ width, height, bitDepth, data }: Raster): Raster {
  const out = data.slice();
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < 3; c++) out[3 * (y * width + width - 1 - x) + c] = data[3 * (y * width + x) + c]; // prettier-ignore
  return { width, height, bitDepth, data: out };
}

/** The frame with an even grey over the patches and a little around them. */
function paintedOut(raster: Raster, { corners }: Photo): Raster {
  const { darkSkinCorner, bluishGreenCorner, blackCorner, whiteCorner } = corners.outer;
  const outline = [darkSkinCorner, bluishGreenCorner, blackCorner, whiteCorner];
  const mx = outline.reduce((sum, [x]) => sum + x / 4, 0);
  const my = outline.reduce((sum, [, y]) => sum + y / 4, 0);
  const wider = outline.map(([x, y]): Point => [mx + 1.1 * (x - mx), my + 1.1 * (y - my)]);
  const data = raster.data.slice();
  for (let y = 0; y < raster.height; y++)
    for (let x = 0; x < raster.width; x++) {
      const sides = wider.map(([ax, ay], i) => {
        const [bx, by] = wider[(i + 1) % 4];
        return Math.sign((bx - ax) * (y - ay) - (by - ay) * (x - ax));
      });
      if (sides.every((side) => side === sides[0])) data.fill(118, 3 * (y * raster.width + x), 3 * (y * raster.width + x) + 3); // prettier-ignore
    }
  return { ...raster, data };
}

async function refusal(raster: Raster): Promise<LastrinseError> {
  try {
    await findCard(raster, card);
  } catch (error) {
    if (error instanceof LastrinseError) return error;
    throw error;
  }
  throw new Error("was not refused");
}

describe.skipIf(!available)(
  `real photos of charts${available ? "" : " (skipped: no shared data)"}`,
  () => {
    test.each(photos.map((photo) => [photo.file, photo] as const))(
      "%s: found",
      async (_, photo) => {
        const raster = await read(photo);
        const placed = await findCard(raster, card);
        expect(placed.matchResidual).toBeLessThan(MATCH_ACCEPTED);
        expect(worstCentreError(card, placed.centres, photo.centres)).toBeLessThan(0.1);

        // By hand, from the corners published with the photo: the same card, the same residual but for the error of the click.
        const [first, , , , , endOfRow] = photo.centres;
        const byHand = placeCard(raster, card, [
          first,
          endOfRow,
          photo.centres[23],
          photo.centres[18],
        ]);
        expect(Math.abs(byHand.matchResidual - placed.matchResidual)).toBeLessThan(0.5);
        const samples = samplePatches(raster, card, placed);
        expect(samples.every(({ pixels }) => pixels >= 100)).toBe(true);
      },
    );

    test.each(photos.map((photo) => [photo.file, photo] as const))(
      "%s: refused when mirrored",
      async (_, photo) => {
        const error = await refusal(mirrored(await read(photo)));
        expect(error.code).toBe("card-not-found");
        expect(error.message).toContain("mirror image");
      },
    );

    test.each(photos.map((photo) => [photo.file, photo] as const))(
      "%s: refused when the chart is painted out",
      async (_, photo) => {
        expect((await refusal(paintedOut(await read(photo), photo))).code).toBe("card-not-found");
      },
    );

    test("the white clipped in the light cabinet shows in its sample", async () => {
      const photo = photos.find(({ file }) => file === "chart12.jpg");
      if (photo === undefined) throw new Error("no chart12");
      const raster = await read(photo);
      const samples = samplePatches(raster, card, await findCard(raster, card));
      expect(samples[18].clippedHigh).toBeGreaterThan(0.9);
      expect(samples[21].clippedHigh).toBe(0);
    });
  },
);
