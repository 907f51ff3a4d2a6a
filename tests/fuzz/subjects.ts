import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import sharp from "sharp";
import { readRecipe } from "../../cli/readRecipe.ts";
import { readEvidenceFile } from "../../src/bath/readEvidenceFile.ts";
import { CARDS } from "../../src/card/cards.ts";
import { loadCard } from "../../src/card/loadCard.ts";
import { bathRecipe } from "../../src/chemistry/bathRecipe.ts";
import { readStation } from "../../src/jar/place/readStation.ts";
import { readTurbiditySeries } from "../../src/jar/readTurbiditySeries.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { readSmallFile } from "../../src/json/readSmallFile.ts";
import { openRecord } from "../../src/record/openRecord.ts";
import { parseInkCorrections } from "../../src/regions/parseInkCorrections.ts";
import { noiseBytes, tiffBytes, wordBytes } from "../raster/bytes.ts";

/** One good file, and the reader that its damaged copies go through. */
export interface Subject {
  readonly reader: string;
  readonly name: string;
  readonly bytes: Buffer;
  readonly form: "png" | "json" | "other";
  /** Damaged copies in a whole run. */
  readonly inputs: number;
  /** Where each copy is written before it is read. */
  readonly path: string;
  readonly read: () => Promise<unknown>;
}

const SIZE = { width: 48, height: 36 };
const PIXELS = noiseBytes(3 * SIZE.width * SIZE.height, 51);
const WORDS = Uint16Array.from(PIXELS, (byte) => 257 * byte);

/** What a scan must be where it was not refused. */
async function scan(path: string): Promise<void> {
  const { raster, info } = await readScan(path);
  const { width, height, data } = raster;
  if (data.length !== 3 * width * height || info.widthPixels !== width)
    throw new RangeError(`A raster of ${width} x ${height} with ${data.length} values.`);
}

async function smallPictures(): Promise<Record<string, Buffer>> {
  const eight = sharp(PIXELS, { raw: { ...SIZE, channels: 3 } });
  const sixteen = sharp(WORDS, { raw: { ...SIZE, channels: 3 } }).toColourspace("rgb16");
  const told = eight
    .clone()
    .withIccProfile("srgb")
    .withExif({
      IFD0: { DateTime: "2026:05:04 10:00:00" },
      IFD2: { DateTimeOriginal: "2026:05:04 10:00:00" },
    }) // prettier-ignore
    .withDensity(300);
  const page = { ...SIZE, data: PIXELS };
  const exif = { 36867: [2, "2026:05:04 10:00:00"] } as const;
  return {
    "jpeg.jpg": await told.clone().jpeg({ quality: 90 }).toBuffer(),
    "progressive.jpg": await eight.clone().jpeg({ progressive: true }).toBuffer(),
    "told.png": await told.clone().png().toBuffer(),
    "interlaced.png": await eight.clone().png({ progressive: true }).toBuffer(),
    "palette.png": await eight.clone().png({ palette: true }).toBuffer(),
    "sixteen.png": await sixteen.clone().png().toBuffer(),
    "plain.tif": tiffBytes([{ ...page, exif }, page], { directoryFirst: true }),
    "motorola.tif": tiffBytes([{ ...SIZE, bits: 16, data: wordBytes(WORDS, true) }], {
      bigEndian: true,
    }),
    "lzw.tif": await told.clone().tiff({ compression: "lzw", predictor: "horizontal" }).toBuffer(),
    "deflate.tif": await sixteen.clone().tiff({ compression: "deflate" }).toBuffer(),
    "tiled.tif": await eight.clone().tiff({ compression: "deflate", tile: true, tileWidth: 16, tileHeight: 16 }).toBuffer(), // prettier-ignore
    "jpeg-inside.tif": await eight.clone().tiff({ compression: "jpeg" }).toBuffer(),
    "big.tif": await eight.clone().tiff({ compression: "none", bigtiff: true }).toBuffer(),
  };
}

/** Files of sample-images/ that are pictures, and how often each is damaged: large ones seldom. */
const SAMPLES: Readonly<Record<string, number>> = {
  "before.png": 12,
  "after.png": 12,
  "jar-blank.jpg": 60,
  "jar-bath-1.jpg": 60,
  "jar-bath-2.jpg": 60,
  "jar-bath-3.jpg": 60,
  "blotter-red.jpg": 60,
  "blotter-blue.jpg": 60,
  "blotter-yellow.jpg": 60,
  "blotter-black.jpg": 60,
};

function sample(name: string): Buffer {
  return readFileSync(fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url)));
}

const [CHART] = CARDS;

function referenceText(): Buffer {
  const rows = CHART.patches.map(({ lab }, i) => `${i + 1} ${lab.join(" ")}`).join("\n");
  return Buffer.from(
    `CGATS.17\n\nORIGINATOR "measured at 23 °C"\nKEYWORD "OWN"\nNUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS 24\nBEGIN_DATA\n${rows}\nEND_DATA\n`,
  );
}

const json = (value: unknown): Buffer => Buffer.from(JSON.stringify(value, null, 2));

const EVENT = { schema: "lastrinse.event", version: 1, at: "2026-05-04T10:00:00+02:00", program: "0", inputs: [] }; // prettier-ignore
const HASH = "0123456789abcdef".repeat(4);
const SCAN = { side: "front", card: "strip", corners: [[0, 0], [9, 0], [9, 9], [0, 9]], state: "dry", stateAssumed: false, dpi: 300, page: null }; // prettier-ignore
const EVENTS: readonly object[] = [
  { kind: "opened", settings: { title: "Brine Bell", object: null, bench: null, jar: "flat", insideMm: 50, passes: 1, limits: { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 } } }, // prettier-ignore
  { kind: "before", inputs: [{ role: "scan", file: "../before.png", bytes: 5, sha256: HASH }], settings: SCAN }, // prettier-ignore
  { kind: "blot", settings: { liquid: null, surfactant: true, ph: 8.5, temperatureC: 38, minutes: 5, site: null, ink: "red", result: "fast", card: null, spotBox: null, controlBox: [1, 2, 3, 4] } }, // prettier-ignore
  { kind: "bath", settings: { kind: "wash", surfactant: true, composition: null, minutes: 5, temperatureC: 38, volumeMl: 500, phIn: 8.5, phOut: null, agitation: null, foam: "some", note: "x", repeated: ["minutes"], card: null } }, // prettier-ignore
  { kind: "step", settings: { what: "mended", area: [1, 2, 3, 4], bleed: "red" } },
  { kind: "after", settings: { ...SCAN, stage: "washed" } },
  { kind: "amended", settings: { event: "000004", why: null, withdrawn: false, changes: { minutes: 7 } } }, // prettier-ignore
];

const SERIES = {
  schema: "lastrinse.turbidity-series",
  version: 1,
  points: [0, 5, 10, 20, 40].map((fnu) => ({ file: `jar-${fnu}.png`, fnu })),
};
const INKS = {
  schema: "lastrinse.inks",
  version: 1,
  corrections: [
    { action: "rename", ink: "red", to: "title red" },
    { action: "merge", inks: ["red", "red-2"] },
    { action: "exclude", polygonPixels: [[1, 1], [9, 1], [9, 9]] }, // prettier-ignore
    { action: "kind", ink: "black", kind: "black" },
  ],
};

const COPIES_OF_SMALL = 230;

/**
 * Every reader with good files of its own: pictures made here and those of sample-images/, reference texts, and the JSON of
 * card, station, evidence, series, ink corrections, recipe and of each kind of event.
 * @param folder Receives the damaged copies, one at a time.
 */
export async function subjects(folder: string): Promise<Subject[]> {
  const all: Subject[] = [];
  const add = (
    reader: string,
    name: string,
    bytes: Buffer,
    inputs: number,
    read: (path: string) => Promise<unknown>,
    path = join(folder, name),
  ): void => {
    const form = name.endsWith(".png") ? "png" : name.endsWith(".json") ? "json" : "other";
    all.push({ reader, name, bytes, form, inputs, path, read: () => read(path) });
  };
  for (const [name, bytes] of Object.entries(await smallPictures()))
    add(`readScan, ${kindOf(name)}`, name, bytes, COPIES_OF_SMALL, scan);
  for (const [name, inputs] of Object.entries(SAMPLES))
    add(`readScan, ${kindOf(name)}`, `sample ${name}`, sample(name), inputs, scan);
  add("loadCard, text", "reference.txt", referenceText(), 300, (path) => loadCard(path));
  const card = json({ schema: "lastrinse.card", version: 1, ...CHART });
  add("loadCard, JSON", "card.json", card, 300, (path) => loadCard(path));
  add("readStation", "station.json", sample("station.json"), 250, readStation);
  add("readEvidenceFile", "evidence.json", sample("evidence.json"), 250, readEvidenceFile);
  add("readTurbiditySeries", "series.json", json(SERIES), 250, readTurbiditySeries);
  add("parseInkCorrections", "inks.json", json(INKS), 250, async (path) =>
    parseInkCorrections((await readSmallFile(path)).toString("utf8"), path),
  );
  const recipe = bathRecipe({ volumeMl: 500, limewaterSharePercent: 5, temperatureC: 25, surfactantDrops: 3, dropMl: 0.03 }); // prettier-ignore
  add("readRecipe", "recipe.json", json(recipe), 250, readRecipe);

  EVENTS.forEach((event, damaged) => {
    const kind = String((event as { kind: string }).kind);
    const record = join(folder, `record-${kind}`);
    mkdirSync(join(record, "events"), { recursive: true });
    const files = EVENTS.map((one, i) => {
      const id = String(i + 1).padStart(6, "0");
      const path = join(record, "events", `${id}.json`);
      const bytes = json({ ...EVENT, id, ...one });
      writeFileSync(path, bytes);
      return { path, bytes };
    });
    const { path, bytes } = files[damaged];
    const read = (): Promise<unknown> => openRecord(record, "0");
    add("openRecord", `${kind}.json`, bytes, 120, read, path);
  });
  return all;
}

function kindOf(name: string): string {
  return name.endsWith(".tif") ? "TIFF" : name.endsWith(".png") ? "PNG" : "JPEG";
}
