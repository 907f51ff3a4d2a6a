import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { JAR_BACKING } from "../../calibration/jar-backing.ts";
import { applyHomography } from "../../src/card/homography.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { gradeBlotterSpot } from "../../src/blotter/gradeBlotterSpot.ts";
import { SOFT } from "../../src/print/softMix.ts";
import type { Matrix3 } from "../../src/numeric/matrix3.ts";
import { printedBackingMap } from "./backingMap.ts";
import { jpegOf } from "./exposed.ts";
import { FRESH, type Liquid } from "./liquids.ts";
import { renderBlotterPhoto, wetReflectance } from "./renderBlotterPhoto.ts";
import { type JarInScene, renderJarPhoto, trueAbsorbancePerCm } from "./renderJarPhoto.ts";
import { SAMPLE_BATHS, SAMPLE_BLOTTERS } from "./sampleBaths.ts";
import { smoothStep } from "./toneCurves.ts";

const PIXELS_PER_MM = 5.5;
const WIDTH = 2000;
const HEIGHT = 1240;
const TURN_DEGREES = 0.1;
const JPEG_QUALITY = 90;

/** A phone bends its tone curve. */
const TONE = smoothStep(0.3);
const CAMERA = "two";
const LIGHT = "daylight";

const JAR: JarInScene = {
  shape: "flat",
  leftMm: 112,
  rightMm: 186,
  wallMm: 2.5,
  topMm: 62,
  levelMm: 80,
  bottomMm: 186,
  insideCm: 5,
  passes: 1,
};

/** Corners of the card beside the backing: first patch, and pitch, pixels. */
const CARD_FIRST: readonly [number, number] = [1704, 560];
const CARD_PITCH = 46;
const CARD_NAME = "chart24-post2014";

const BLOTTER_WIDTH = 900;
const BLOTTER_HEIGHT = 620;
const BLOTTER_CARD_FIRST: readonly [number, number] = [620, 225];
const BLOTTER_CARD_PITCH = 44;

const MIX = [SOFT.slice(0, 3), SOFT.slice(3, 6), SOFT.slice(6, 9)];

/**
 * Draws the jar photos (`jar-blank.jpg`, `jar-bath-1.jpg` ...), the blotter photos, `station.json`, `jar-truth.json` and, where the
 * cover's `truth.json` is there already, `evidence.json`.
 * @param directory Where to; files there are replaced.
 * @returns The names written.
 */
export async function drawJarSamples(directory: string): Promise<string[]> {
  const written: string[] = [];
  const write = async (name: string, content: Buffer | string): Promise<void> => {
    await writeFile(join(directory, name), content);
    written.push(name);
  };
  const backing = await printedBackingMap();
  const photo = (liquid: Liquid, seed: number): Promise<Buffer> =>
    jpegOf(
      renderJarPhoto({
        widthPixels: WIDTH,
        heightPixels: HEIGHT,
        backing,
        toPixels: sheetToPixels(),
        jar: JAR,
        liquid,
        camera: CAMERA,
        light: LIGHT,
        gradient: [0.06, -0.03],
        chart: { first: CARD_FIRST, pitchPixels: CARD_PITCH },
        exposure: { seed, tone: TONE },
      }),
      JPEG_QUALITY,
    );
  await write("jar-blank.jpg", await photo(FRESH, 11));
  for (const [i, liquid] of SAMPLE_BATHS.entries())
    await write(`jar-bath-${i + 1}.jpg`, await photo(liquid, 12 + i));
  for (const [i, ink] of Object.keys(SAMPLE_BLOTTERS).entries())
    await write(`blotter-${ink}.jpg`, await blotter(ink, 21 + i));
  await write("station.json", json(stationFile()));
  await write("jar-truth.json", json(truth()));
  const cover = await coverTruth(directory);
  if (cover !== null) await write("evidence.json", json(evidence(cover)));
  return written;
}

function json(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}

/** Millimetres of the backing to pixels: turned a little about its middle. */
function sheetToPixels(): Matrix3 {
  const angle = (TURN_DEGREES * Math.PI) / 180;
  const c = PIXELS_PER_MM * Math.cos(angle);
  const s = PIXELS_PER_MM * Math.sin(angle);
  const u = JAR_BACKING.widthMm / 2;
  const v = JAR_BACKING.heightMm / 2;
  const x = 40 + u * PIXELS_PER_MM;
  const y = 30 + v * PIXELS_PER_MM;
  return [c, -s, x - c * u + s * v, s, c, y - s * u - c * v, 0, 0, 1];
}

function blotter(ink: string, seed: number): Promise<Buffer> {
  return jpegOf(
    renderBlotterPhoto({
      widthPixels: BLOTTER_WIDTH,
      heightPixels: BLOTTER_HEIGHT,
      blotter: [50, 50, 560, 570],
      spots: [
        { at: [190, 310], radiusPixels: 72, density: SAMPLE_BLOTTERS[ink].map(() => 0) },
        { at: [415, 300], radiusPixels: 68, density: SAMPLE_BLOTTERS[ink] },
      ],
      chart: { first: BLOTTER_CARD_FIRST, pitchPixels: BLOTTER_CARD_PITCH },
      camera: CAMERA,
      light: LIGHT,
      gradient: [0.04, 0.03],
      exposure: { seed, tone: TONE },
    }),
    JPEG_QUALITY,
  );
}

/** The station as one would write it down: boxes in the photo, inside the liquid and beside the jar. */
function stationFile(): unknown {
  const at = (u: number, v: number): [number, number] => {
    const [x, y] = applyHomography(sheetToPixels(), [u, v]);
    return [Math.round(10 * x) / 10, Math.round(10 * y) / 10];
  };
  const box = (left: number, top: number, right: number, bottom: number): number[] => [
    ...at(left, top).map(Math.round),
    Math.round((right - left) * PIXELS_PER_MM),
    Math.round((bottom - top) * PIXELS_PER_MM),
  ];
  const inner: [number, number] = [JAR.leftMm + JAR.wallMm, JAR.rightMm - JAR.wallMm];
  const middle = (inner[0] + inner[1]) / 2;
  const [, , wide, narrow] = JAR_BACKING.zones;
  const [x, y] = CARD_FIRST;
  return {
    schema: "lastrinse.station",
    version: 1,
    jar: "flat",
    pathCm: JAR.insideCm,
    passes: JAR.passes,
    card: {
      name: CARD_NAME,
      cornersPixels: [
        [x, y],
        [x + 5 * CARD_PITCH, y],
        [x + 5 * CARD_PITCH, y + 3 * CARD_PITCH],
        [x, y + 3 * CARD_PITCH],
      ],
    },
    liquidBox: box(inner[0], JAR.levelMm, inner[1], JAR.bottomMm),
    stripes: {
      wide: {
        box: box(inner[0] + 7, wide.fromMm + 2, inner[1] - 7, wide.toMm - 2),
        periodPixels: JAR_BACKING.widePeriodMm * PIXELS_PER_MM,
        firstWhiteY: at(middle, wide.fromMm)[1],
      },
      narrow: {
        box: box(inner[0] + 7, narrow.fromMm + 2, inner[1] - 7, narrow.toMm - 2),
        periodPixels: JAR_BACKING.narrowPeriodMm * PIXELS_PER_MM,
        firstWhiteY: at(middle, narrow.fromMm)[1],
      },
      besideLeft: box(JAR.leftMm - 45, wide.fromMm, JAR.leftMm - 5, wide.toMm),
      besideRight: box(JAR.rightMm + 5, wide.fromMm, JAR.rightMm + 45, wide.toMm),
    },
  };
}

function rounded(values: readonly number[], digits: number): number[] {
  return values.map((value) => Number(value.toFixed(digits)));
}

function truth(): unknown {
  const lab = (ink: string): ReturnType<typeof xyzD50ToLab> =>
    xyzD50ToLab(reflectanceToXyzD50(wetReflectance(SAMPLE_BLOTTERS[ink])));
  const control = xyzD50ToLab(
    reflectanceToXyzD50(wetReflectance(SAMPLE_BLOTTERS.red.map(() => 0))),
  );
  return {
    about:
      "Invented baths in an invented jar. Everything below is known because the pictures were computed from it. Amounts are decadic absorbances per cm at the peak of a dye, of soil at 450 nm.",
    bathVolumeMl: 500,
    pathCm: JAR.insideCm,
    camera: CAMERA,
    light: LIGHT,
    baths: SAMPLE_BATHS.map((liquid, i) => ({
      file: `jar-bath-${i + 1}.jpg`,
      ...liquid,
      absorbancePerCm: rounded(
        trueAbsorbancePerCm(liquid, JAR.insideCm, MIX, {
          camera: CAMERA,
          light: LIGHT,
          passes: JAR.passes,
        }),
        5,
      ),
    })),
    blotters: Object.keys(SAMPLE_BLOTTERS).map((ink) => {
      const { deltaE00, stainingGrade, verdict } = gradeBlotterSpot(control, lab(ink));
      return {
        ink,
        file: `blotter-${ink}.jpg`,
        labControl: rounded(control, 2),
        labSpot: rounded(lab(ink), 2),
        deltaE00: rounded([deltaE00], 2)[0],
        stainingGrade,
        verdict,
      };
    }),
  };
}

interface CoverTruth {
  readonly paper: { readonly labBefore: readonly number[] };
  readonly inks: readonly {
    readonly id: string;
    readonly areaCm2: number;
    readonly labBefore: readonly number[];
  }[];
}

async function coverTruth(directory: string): Promise<CoverTruth | null> {
  try {
    return JSON.parse(await readFile(join(directory, "truth.json"), "utf8")) as CoverTruth;
  } catch {
    return null;
  }
}

/** What the user knows before the jar is read: inks and areas from the scan, grades from the blotters, the baths' conditions. */
function evidence(cover: CoverTruth): unknown {
  const { blotters } = truth() as { blotters: readonly { ink: string; verdict: string }[] };
  const bath = { volumeMl: 500, minutes: 5, temperatureC: 35, settled: false };
  return {
    schema: "lastrinse.evidence",
    version: 1,
    bathVolumeMl: 500,
    wetSheetMl: 14,
    paper: { lab: rounded(cover.paper.labBefore, 1) },
    inks: cover.inks
      .filter(({ id }) => id in SAMPLE_BLOTTERS)
      .map(({ id, labBefore, areaCm2 }) => ({
        id,
        lab: rounded(labBefore, 1),
        areaCm2: rounded([areaCm2], 1)[0],
        blot: blotters.find((blotter) => blotter.ink === id)?.verdict,
      })),
    baths: [
      { kind: "wash", surfactant: true, ...bath },
      { kind: "wash", surfactant: false, ...bath },
      { kind: "rinse", surfactant: false, ...bath },
    ],
    limits: { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 },
  };
}
