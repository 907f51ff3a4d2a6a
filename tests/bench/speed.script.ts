/**
 * Speed and memory: ratios measured inside one run, so that they hold on other machines as well. Prints the tables and puts
 * them into the README beside this file, under "Speed and memory".
 * Run: npm run bench [-- quick]. The whole takes a quarter of an hour and 2 GB of disk; quick leaves the large pairs out.
 */
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { cpus, tmpdir, totalmem } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { pairScenes } from "../../sample-images/scene/pairScenes.ts";
import { renderFrame } from "../../sample-images/scene/renderFrame.ts";
import { SAMPLE_PAIR } from "../../sample-images/scene/samplePair.ts";
import { loadCard } from "../../src/card/loadCard.ts";
import { findCard } from "../../src/card/findCard.ts";
import { compareScans } from "../../src/compare/compareScans.ts";
import { measureJarFiles } from "../../src/jar/measureJarFiles.ts";
import { readStation } from "../../src/jar/place/readStation.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { sharp } from "../../src/raster/sharp.ts";
import { closeVision } from "../../src/vision/pool.ts";
import { KERNELS, pixelPairs } from "./kernels.ts";
import { runCompare } from "./runCompare.ts";
import { timed } from "./timed.ts";

const quick = process.argv.includes("quick");
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "lastrinse-bench-"));
const lines: string[] = [];
const say = (line: string): void => {
  lines.push(line);
  console.log(line);
};
const spread = (sorted: readonly number[], digits: number): string =>
  `${sorted[Math.floor(sorted.length / 2)].toFixed(digits)} (${sorted[0].toFixed(digits)}-${sorted[sorted.length - 1].toFixed(digits)})`;
const middle = (sorted: readonly number[]): number => sorted[Math.floor(sorted.length / 2)];

type Pair = readonly [before: string, after: string];

/** D: both files decoded to raw, one after the other. */
async function decodeBoth(pair: Pair): Promise<void> {
  for (const file of pair) await sharp(file, { limitInputPixels: false }).raw().toBuffer();
}

interface Render {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly dpi: number;
  readonly bitDepth?: 8 | 16;
}

/** Writes a rendered pair through `encode`, which names the file. */
async function write(
  { widthMm, heightMm, dpi, bitDepth = 8 }: Render,
  encode: (raster: Raster, side: string, dpi: number) => Promise<void>,
): Promise<number> {
  const scenes = pairScenes({
    ...SAMPLE_PAIR,
    widthMm,
    heightMm,
    dpiBefore: dpi,
    dpiAfter: dpi,
    bitDepth,
    noise: 1.2,
    grain: 0.03,
  });
  let pixels = 0;
  for (const side of ["before", "after"] as const) {
    const scanner = side === "before" ? scenes.scannerBefore : scenes.scannerAfter;
    const raster = renderFrame(scenes[side], scanner);
    pixels += raster.width * raster.height;
    await encode(raster, side, dpi);
  }
  return pixels / 2e6;
}

/** The kind of file by which the growth of cost is told. */
const GROWING = "8 bit, TIFF deflate";

type Encoding = "deflate" | "png" | "none" | "lzw" | "jpeg";

function encoded(raster: Raster, dpi: number, encoding: Encoding): ReturnType<typeof sharp> {
  const { width, height, data } = raster;
  const picture = sharp(data, { raw: { width, height, channels: 3 }, limitInputPixels: false });
  if (raster.bitDepth === 16) picture.toColourspace("rgb16");
  picture.withDensity(dpi);
  if (encoding === "png") return picture.png({ compressionLevel: 6 });
  if (encoding === "jpeg") return picture.jpeg({ quality: 92, chromaSubsampling: "4:4:4" });
  return picture.tiff({
    compression: encoding,
    predictor: encoding === "none" ? "none" : "horizontal",
    bigtiff: true,
    xres: dpi / 25.4,
    yres: dpi / 25.4,
  });
}

const pairOf = (name: string): Pair => [
  join(folder, `${name}-before`),
  join(folder, `${name}-after`),
];

/** Rows of one kind of file, from small to large. */
const growth: { readonly megapixels: number; readonly seconds: number; readonly peak: number }[] =
  [];

async function row(name: string, megapixels: number, pair: Pair, times: number): Promise<void> {
  const decoding = await timed(3, () => decodeBoth(pair));
  const runs = [];
  for (let k = 0; k < times; k++) runs.push(await runCompare(...pair, join(folder, "out")));
  // Half of the decoding is timed afterwards: the machine may have become busier meanwhile.
  const D = [...decoding, ...(await timed(3, () => decodeBoth(pair)))].sort((a, b) => a - b);
  const seconds = runs.map((run) => run.seconds).sort((a, b) => a - b);
  const peak = Math.max(...runs.map((run) => run.peakMegabytes));
  if (name.startsWith(GROWING)) growth.push({ megapixels, seconds: middle(seconds), peak });
  const bytes = pair.reduce((sum, file) => sum + statSync(file).size, 0);
  const ratio = middle(seconds) / ((D[2] + D[3]) / 2);
  say(
    `| ${name} | ${megapixels.toFixed(0)} | ${(bytes / 1e6).toFixed(0)} | ${spread(D, 2)} | ${spread(seconds, 1)} | ${middle(runs.map((run) => run.cpuSeconds)).toFixed(1)} | ${ratio.toFixed(1)} | ${peak.toFixed(0)} |`,
  );
}

/** Wall seconds of each stage, as the progress tells them. */
async function stages(pair: Pair): Promise<void> {
  const D = middle(await timed(3, () => decodeBoth(pair)));
  const times = new Map<string, number>();
  let stage = "";
  let since = performance.now();
  const card = await loadCard(undefined);
  await compareScans(
    {
      before: { file: pair[0], state: "dry" },
      after: { file: pair[1], state: "dry" },
      card,
    },
    {
      report(next) {
        const now = performance.now();
        if (stage !== "") times.set(stage, (times.get(stage) ?? 0) + (now - since) / 1000);
        [stage, since] = [next, now];
      },
    },
  );
  for (const [name, seconds] of times)
    say(`| ${name} | ${seconds.toFixed(2)} | ${(seconds / D).toFixed(2)} |`);
}

try {
  say(
    `Machine: ${cpus()[0].model.trim()}, ${cpus().length} threads, ${(totalmem() / 2 ** 30).toFixed(0)} GiB, Node ${process.versions.node}, sharp with libvips ${sharp.versions.vips}. Middle of the runs, smallest and largest in brackets.`,
  );
  say("");
  say("### Whole compare");
  say("");
  say(
    "D is the time to decode both files of the pair to raw, one after the other, in the same run. The compare is the program itself: reading, card, registration, regions, measuring, damage, all files written with pictures of at most 150 dpi.",
  );
  say("");
  say("| pair | MP each | MB both | D, s | compare, s | CPU, s | compare / D | peak memory, MB |");
  say("|---|---|---|---|---|---|---|---|");
  await row("sample pair, PNG, 200 dpi", 3.9, [sample("before.png"), sample("after.png")], 3);
  if (!quick) {
    const small = await write(
      { widthMm: 100, heightMm: 170, dpi: 600 },
      async (raster, side, dpi) => {
        await encoded(raster, dpi, "deflate").toFile(join(folder, `s-${side}`));
      },
    );
    await row("8 bit, TIFF deflate", small, pairOf("s"), 1);
    const encodings: readonly (readonly [Encoding, string])[] = [
      ["deflate", "8 bit, TIFF deflate"],
      ["png", "8 bit, PNG"],
      ["none", "8 bit, TIFF uncompressed"],
      ["lzw", "8 bit, TIFF LZW"],
      ["jpeg", "8 bit, JPEG q92 4:4:4"],
    ];
    const everyday = { widthMm: 225, heightMm: 345, dpi: 600 };
    const middling = await write(everyday, async (raster, side, dpi) => {
      for (const [encoding] of encodings)
        await encoded(raster, dpi, encoding).toFile(join(folder, `${encoding}-${side}`));
    });
    for (const [encoding, name] of encodings)
      await row(name, middling, pairOf(encoding), encoding === "deflate" ? 3 : 1);
    await write({ ...everyday, bitDepth: 16 }, async (raster, side, dpi) => {
      await encoded(raster, dpi, "deflate").toFile(join(folder, `words-${side}`));
    });
    await row("16 bit, TIFF deflate", middling, pairOf("words"), 1);
    const large = await write(
      { widthMm: 345, heightMm: 500, dpi: 600 },
      async (raster, side, dpi) => {
        await encoded(raster, dpi, "deflate").toFile(join(folder, `l-${side}`));
      },
    );
    await row("8 bit, TIFF deflate", large, pairOf("l"), 1);
    // A poster is rendered at half its resolution and enlarged: its rows cost as much to read.
    const poster = await write(
      { widthMm: 640, heightMm: 950, dpi: 300 },
      async (raster, side, dpi) => {
        await encoded(raster, 2 * dpi, "deflate")
          .resize(2 * raster.width, 2 * raster.height, { kernel: "cubic" })
          .toFile(join(folder, `p-${side}`));
      },
    );
    await row("8 bit, TIFF deflate, poster", 4 * poster, pairOf("p"), 1);
    say("");
    say("How cost grows, TIFF deflate:");
    say("");
    say("| MP each | compare, s | s a MP | peak memory, MB |");
    say("|---|---|---|---|");
    for (const { megapixels, seconds, peak } of growth)
      say(
        `| ${megapixels.toFixed(0)} | ${seconds.toFixed(1)} | ${(seconds / megapixels).toFixed(2)} | ${peak.toFixed(0)} |`,
      );
    say("");
    say(`Stages of the ${middling.toFixed(0)} MP pair, TIFF deflate (threads overlap):`);
    say("");
    say("| stage | s | / D |");
    say("|---|---|---|");
    await stages(pairOf("deflate"));
  }

  say("");
  say("### Colour difference a pixel");
  say("");
  say("A million pairs of random sRGB pixels, 6 codes apart, bytes in and dE00 out, one thread.");
  say("");
  say("| way | ns a pixel | times faster than culori |");
  say("|---|---|---|");
  const measured = [];
  for (const { name, share, sum } of KERNELS) {
    const pairs = pixelPairs(1e6 * share);
    sum(pairs);
    const seconds = await timed(5, () => sum(pairs));
    measured.push({ name, ns: seconds.map((s) => (s / pairs.count) * 1e9) });
  }
  const culori = measured.find(({ name }) => name.startsWith("culori"));
  if (culori === undefined) throw new Error("Expected culori among the kernels.");
  for (const { name, ns } of measured)
    say(`| ${name} | ${spread(ns, 0)} | ${(middle(culori.ns) / middle(ns)).toFixed(1)} |`);

  say("");
  say("### Jar and card");
  say("");
  say("| job | s |");
  say("|---|---|");
  const { raster } = await readScan(sample("before.png"));
  const card = await loadCard(undefined);
  say(
    `| card found, sample scan of 3.9 MP | ${spread(await timed(5, () => findCard(raster, card)), 2)} |`,
  );
  const station = await readStation(sample("station.json"));
  const jar = await timed(3, () =>
    measureJarFiles({
      spent: [1, 2, 3].map((k) => sample(`jar-bath-${k}.jpg`)),
      blank: sample("jar-blank.jpg"),
      geometry: station,
    }),
  );
  say(`| three sample baths against the blank, read and measured | ${spread(jar, 2)} |`);
} finally {
  await closeVision();
  rmSync(folder, { recursive: true, force: true });
}

/** Puts the tables under their heading; other headings of the file stay as they are. */
const HEADING = "## Speed and memory";
const readme = fileURLToPath(new URL("./README.md", import.meta.url));
const text = (() => {
  try {
    return readFileSync(readme, "utf8");
  } catch {
    return "# Measured\n";
  }
})();
const at = text.indexOf(HEADING);
const next = at < 0 ? -1 : text.indexOf("\n## ", at + 1);
const head = at < 0 ? `${text.trimEnd()}\n\n` : text.slice(0, at);
const tail = next < 0 ? "" : text.slice(next);
if (!quick) writeFileSync(readme, `${head}${HEADING}\n\n${lines.join("\n")}\n${tail}`);
