import type { JarReading } from "../../../src/jar/jarReading.ts";
import type { JarPhoto } from "../../../src/jar/optics/linearPhoto.ts";
import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import { type BackingMap, printedBackingMap } from "../../../sample-images/jar/backingMap.ts";
import { throughJpeg } from "../../../sample-images/jar/exposed.ts";
import type { Liquid } from "../../../sample-images/jar/liquids.ts";
import { type JarInScene, renderJarPhoto } from "../../../sample-images/jar/renderJarPhoto.ts";
import { JAR_BACKING } from "../../../calibration/jar-backing.ts";
import { applyHomography } from "../../../src/card/homography.ts";
import { locateBacking } from "../../../src/jar/place/locateBacking.ts";
import { measureJar } from "../../support/measureJar.ts";
import type { JarShape } from "../../../src/jar/place/station.ts";
import { type Matrix3, multiply3 } from "../../../src/numeric/matrix3.ts";
import type { Raster } from "../../../src/raster/raster.ts";
import { trueAbsorbance } from "../../support/jarScene.ts";

/** The backing is the very SVG that the user prints, seen by the forward model of the samples: turned, in perspective, with a jar. */
let backing: BackingMap;
beforeAll(async () => {
  backing = await printedBackingMap();
});

const SHAPE: JarShape = { jar: "flat", insideMm: 50, passes: 1 };
const JAR: JarInScene = {
  shape: "flat",
  leftMm: 112,
  rightMm: 182,
  wallMm: 2.5,
  topMm: 62,
  levelMm: 78,
  bottomMm: 186,
  insideCm: 5,
  passes: 1,
};
const BATH: Liquid = { soil: 0.08, dyes: { red: 0.04 } };

interface View {
  readonly degrees: number;
  readonly pixelsPerMm: number;
  /** Change of scale over a millimetre across and half of it down. */
  readonly perspective: number;
}

const ROOM_MM = [320, 270] as const;

function toPixels({ degrees, pixelsPerMm: s, perspective: p }: View): Matrix3 {
  const a = (degrees * Math.PI) / 180;
  const middle: Matrix3 = [1, 0, -JAR_BACKING.widthMm / 2, 0, 1, -JAR_BACKING.heightMm / 2, 0, 0, 1]; // prettier-ignore
  const turn: Matrix3 = [s * Math.cos(a), -s * Math.sin(a), 0, s * Math.sin(a), s * Math.cos(a), 0, 0, 0, 1]; // prettier-ignore
  const lean: Matrix3 = [1, 0, 0, 0, 1, 0, p / s, p / (2 * s), 1];
  const place: Matrix3 = [1, 0, (ROOM_MM[0] * s) / 2, 0, 1, (ROOM_MM[1] * s) / 2, 0, 0, 1];
  return multiply3(place, multiply3(lean, multiply3(turn, middle)));
}

async function shot(
  view: View,
  liquid: Liquid,
  jar: JarInScene | null = JAR,
  seed = 1,
): Promise<JarPhoto> {
  const raster = renderJarPhoto({
    widthPixels: Math.round(ROOM_MM[0] * view.pixelsPerMm),
    heightPixels: Math.round(ROOM_MM[1] * view.pixelsPerMm),
    backing,
    toPixels: toPixels(view),
    jar,
    liquid,
    gradient: [0.08, -0.05],
    exposure: { seed },
  });
  return { file: "jar.jpg", raster: await throughJpeg(raster, 90), greys: [] };
}

/** Plain sRGB, but JPEG and no card: the limits for phone-like photos. */
function expectBath(reading: JarReading, pathCm = 5): void {
  trueAbsorbance(BATH, { pathCm }).forEach((truth, c) =>
    expect(Math.abs(reading.absorbancePerCm[c] - truth)).toBeLessThan(0.008 + 0.12 * truth),
  );
}

/** Worst distance of the stripes' corners from where they are, mm. */
function worstPlace(photo: JarPhoto, truth: Matrix3): number {
  const found = locateBacking(photo.raster, photo.file);
  const { stripesLeftMm: l, stripesRightMm: r } = JAR_BACKING;
  return Math.max(
    ...[
      [l, 26],
      [r, 26],
      [r, 182],
      [l, 182],
    ].map(([u, v]) => {
      const [x, y] = applyHomography(truth, [u, v]);
      const [a, b] = applyHomography(found.toPixels, [u, v]);
      return Math.hypot(a - x, b - y) / found.pixelsPerMm;
    }),
  );
}

describe("the printed backing is found without a station file, and the bath read before it", () => {
  const VIEWS: readonly View[] = [
    { degrees: 0, pixelsPerMm: 6, perspective: 0 },
    { degrees: 10, pixelsPerMm: 6, perspective: 6e-5 },
    { degrees: -7, pixelsPerMm: 7, perspective: -6e-5 },
  ];
  test.each(VIEWS)("$degrees degrees, $pixelsPerMm pixels per mm", async (view) => {
    const blank = await shot(view, {});
    const spent = await shot(view, BATH, JAR, 2);
    // A tenth of the shift that the stripes may show.
    expect(worstPlace(spent, toPixels(view))).toBeLessThan(0.05);
    const reading = measureJar(spent, blank, SHAPE);
    expectBath(reading);
    // The fine stripes were found too: a clear liquid takes the same of both.
    reading.attenuationNarrowPerCm.forEach((narrow, c) =>
      expect(Math.abs(narrow - reading.attenuationWidePerCm[c])).toBeLessThan(0.003),
    );
  });

  test("20 pixels per mm (a third of it enlarged)", async () => {
    const view = { degrees: 3, pixelsPerMm: 20 / 3, perspective: 0 };
    const enlarged = async (photo: JarPhoto): Promise<JarPhoto> => {
      const { width, height, data } = photo.raster;
      const pixels = await sharp(data, { raw: { width, height, channels: 3 } })
        .resize(3 * width, 3 * height, { kernel: "cubic" })
        .raw()
        .toBuffer();
      const raster: Raster = { width: 3 * width, height: 3 * height, bitDepth: 8, data: pixels };
      return { ...photo, raster };
    };
    const reading = measureJar(
      await enlarged(await shot(view, BATH, JAR, 2)),
      await enlarged(await shot(view, {})),
      SHAPE,
    );
    expectBath(reading);
  });

  const JARS: readonly [string, JarInScene][] = [
    ["filled to the top, and over the stripes", { ...JAR, topMm: 10, levelMm: 12 }],
    ["half full", { ...JAR, levelMm: 122 }],
    ["standing higher", { ...JAR, topMm: 50, levelMm: 60, bottomMm: 140 }],
    ["without visible walls", { ...JAR, wallMm: 0 }],
    ["off the middle", { ...JAR, leftMm: 60, rightMm: 110 }],
    ["round", { ...JAR, shape: "round", insideCm: 6.5 }],
  ];
  const PLAIN_VIEW: View = { degrees: 2, pixelsPerMm: 4.5, perspective: 2e-5 };
  test.each(JARS)("a jar %s", async (_, jar) => {
    const spent = await shot(PLAIN_VIEW, BATH, jar, 2);
    const blank = await shot(PLAIN_VIEW, {}, jar);
    const shape: JarShape = { ...SHAPE, jar: jar.shape, insideMm: 10 * jar.insideCm };
    expectBath(measureJar(spent, blank, shape), jar.shape === "round" ? 6.3 : 5);
  });

  test("the camera may stand elsewhere for the bath: the sheet is straightened each time", async () => {
    const blank = await shot({ degrees: -3, pixelsPerMm: 5, perspective: 3e-5 }, {});
    const spent = await shot({ degrees: 4, pixelsPerMm: 5.5, perspective: 0 }, BATH, JAR, 2);
    expectBath(measureJar(spent, blank, SHAPE));
  });
});

describe("refused rather than guessed", () => {
  const VIEW: View = { degrees: 1, pixelsPerMm: 4.5, perspective: 0 };
  let blank: JarPhoto;
  beforeAll(async () => {
    blank = await shot(VIEW, {});
  });
  const refusal = (code: string): Error => expect.objectContaining({ code }) as Error;

  test("no jar before the backing", async () => {
    const nothing = await shot(VIEW, {}, null);
    expect(() => measureJar(nothing, nothing, SHAPE)).toThrow(refusal("station-not-found"));
  });

  test("liquid too low to be told from the air above it", async () => {
    const jar = { ...JAR, levelMm: 168 };
    const low = await shot(VIEW, BATH, jar);
    const lowBlank = await shot(VIEW, {}, jar);
    expect(() => measureJar(low, lowBlank, SHAPE)).toThrow(refusal("station-not-found"));
  });

  test("the jar stands elsewhere than in the blank", async () => {
    const moved = await shot(VIEW, BATH, { ...JAR, leftMm: 122, rightMm: 192 });
    expect(() => measureJar(moved, blank, SHAPE)).toThrow(refusal("station-moved"));
  });

  test("a jar at the edge of the backing, no stripes past one side", async () => {
    const aside = await shot(VIEW, BATH, { ...JAR, leftMm: 30, rightMm: 100 });
    expect(() => measureJar(aside, aside, SHAPE)).toThrow(refusal("station-not-found"));
  });

  test("a covered corner, a mirrored or an overturned photo, a picture of nothing", () => {
    const { raster } = blank;
    const { width, height, data } = raster;
    const changed = (from: (x: number, y: number) => number | null): Raster => {
      const out = new Uint8Array(data.length);
      for (let y = 0; y < height; y++)
        for (let x = 0; x < width; x++) {
          const source = from(x, y);
          for (let c = 0; c < 3; c++)
            out[3 * (y * width + x) + c] = source === null ? 90 : data[3 * source + c];
        }
      return { ...raster, data: out };
    };
    const [x0, y0] = applyHomography(toPixels(VIEW), [282, 195]);
    const pictures = {
      covered: changed((x, y) => (Math.hypot(x - x0, y - y0) < 30 ? null : y * width + x)),
      mirrored: changed((x, y) => y * width + (width - 1 - x)),
      overturned: changed((x, y) => (height - 1 - y) * width + (width - 1 - x)),
      nothing: changed(() => null),
    };
    for (const [name, picture] of Object.entries(pictures))
      expect(() => locateBacking(picture, name), name).toThrow(refusal("station-not-found"));
    expect(locateBacking(raster, "blank").turnDegrees).toBeCloseTo(1, 1);
  });
});
