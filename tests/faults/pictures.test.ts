import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { CARDS } from "../../src/card/cards.ts";
import { checkCard } from "../../src/calibrate/checkCard.ts";
import { loadCard } from "../../src/card/loadCard.ts";
import { LastrinseError } from "../../src/errors.ts";
import { profileName } from "../../src/raster/profileName.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { closeVision } from "../../src/vision/pool.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { ask, filesBelow, refusalOf } from "./answer.ts";

const folder = temporaryFolder();
const SAMPLES = fileURLToPath(new URL("../../sample-images/", import.meta.url));
const sample = (name: string): string => join(SAMPLES, name);
const here = (name: string): string => join(folder, name);
const [CHART] = CARDS;

/** Where the card lies in the before scan, in pixels: the sample pair is drawn, so that is known. */
const CARD_BOX = { left: 240, top: 2140, width: 560, height: 400 };

async function codeOf(looked: Promise<unknown>): Promise<[string, string]> {
  const error: unknown = await looked.then(
    () => null,
    (reason: unknown) => reason,
  );
  if (error instanceof LastrinseError) return [error.code, error.message];
  throw new Error(`Expected a refusal, received ${String(error)}.`);
}

let samplesBefore: Record<string, string>;

beforeAll(async () => {
  samplesBefore = filesBelow(SAMPLES);
  const card = sharp(sample("before.png")).extract(CARD_BOX);
  const plain = (width: number, height: number, background: string) =>
    sharp({ create: { width, height, channels: 3, background } })
      .png()
      .toBuffer();
  await card.png().toFile(here("card.png"));
  await sharp(here("card.png")).rotate(180).png().toFile(here("upside-down.png"));
  await sharp(here("card.png")).flop().png().toFile(here("mirrored.png"));
  const half = await plain(CARD_BOX.width / 2, CARD_BOX.height, "#ddd8c8");
  await sharp(here("card.png")).composite([{ input: half, left: CARD_BOX.width / 2, top: 0 }]).png().toFile(here("half-covered.png")); // prettier-ignore
  const glare = await plain(180, 100, "#ffffff");
  await sharp(here("card.png")).composite([{ input: glare, left: 120, top: 100 }]).png().toFile(here("glare.png")); // prettier-ignore
  writeFileSync(here("one.png"), await plain(1, 1, "#888888"));
  writeFileSync(here("notes.jpg"), "bath 2, five minutes");
});

afterAll(closeVision);

describe("the card in the frame", () => {
  test("as it lies, and upside down: found, the first patch where it belongs", async () => {
    const straight = await checkCard(here("card.png"), CHART);
    const turned = await checkCard(here("upside-down.png"), CHART);
    const [x, y] = straight.cornersPixels[0];
    expect(turned.cornersPixels[0][0]).toBeCloseTo(CARD_BOX.width - 1 - x, 0);
    expect(turned.cornersPixels[0][1]).toBeCloseTo(CARD_BOX.height - 1 - y, 0);
  });

  test("mirrored, half covered, another layout, or a picture of one pixel: card-not-found, in words", async () => {
    expect(await codeOf(checkCard(here("mirrored.png"), CHART))).toEqual(["card-not-found", expect.stringContaining("mirror image")]); // prettier-ignore
    expect((await codeOf(checkCard(here("half-covered.png"), CHART)))[0]).toBe("card-not-found");
    expect((await codeOf(checkCard(here("card.png"), await loadCard("strip"))))[0]).toBe("card-not-found"); // prettier-ignore
    expect((await codeOf(checkCard(here("one.png"), CHART)))[0]).toBe("card-not-found");
  });

  test("glare on some patches: found, a warning names the patches left out", async () => {
    const { warnings, patches } = await checkCard(here("glare.png"), CHART);
    expect(warnings.map(({ code }) => code)).toContain("clipping");
    expect(patches.filter(({ dropped }) => dropped).length).toBeGreaterThan(0);
  });

  test("a picture of one pixel is read as what it is", async () => {
    const { raster } = await readScan(here("one.png"));
    expect([raster.width, raster.height, ...raster.data]).toEqual([1, 1, 136, 136, 136]);
  });
});

test("a damaged profile that claims four billion tags is named as unreadable, at once", () => {
  const profile = Buffer.alloc(480);
  profile.writeUInt32BE(480, 0);
  profile.write("acsp", 36, "latin1");
  profile.writeUInt32BE(0xffffffff, 128);
  // Without the check the parser walks through all of them, a minute and more: the test would run into its time limit.
  expect(profileName(profile)).toBe("unreadable profile");
});

describe("one kind of picture in place of another", () => {
  const station = ["--station", sample("station.json")];
  const shape = ["--jar", "flat", "--inside-mm", "50", "--passes", "1"];

  test("a jar photo or a blotter photo as a before scan is refused, and nothing is recorded", async () => {
    const record = here("swapped-kinds");
    await ask(["open", record, "--title", "Wrong pictures", "--json"]);
    const before = filesBelow(join(record, "events"));
    const jar = await refusalOf(["before", record, sample("jar-bath-1.jpg")]);
    expect(jar).toEqual([4, "frames-differ", expect.stringContaining("photo of the jar")]);
    const blotter = await refusalOf(["before", record, sample("blotter-red.jpg")]);
    expect(blotter).toEqual([4, "frames-differ", expect.stringContaining("no ink")]);
    expect(filesBelow(join(record, "events"))).toEqual(before);
  });

  test("a jar photo as one of two scans", async () => {
    const [status, code] = await refusalOf(["compare", sample("jar-bath-1.jpg"), sample("after.png")]); // prettier-ignore
    expect([status, code]).toEqual([4, "registration-failed"]);
  });

  test("a scan, or a blotter photo, in place of a jar photo, with station file and without", async () => {
    const blank = ["--blank", sample("jar-blank.jpg")];
    for (const other of ["before.png", "blotter-red.jpg"]) {
      const moved = await refusalOf(["jar", sample(other), ...blank, ...station]);
      expect(moved).toEqual([4, "station-moved", expect.stringContaining(other)]);
    }
    const none = await refusalOf(["jar", sample("jar-bath-1.jpg"), "--blank", sample("before.png"), ...shape]); // prettier-ignore
    expect(none).toEqual([4, "station-not-found", expect.stringContaining("before.png")]);
  });

  test("a jar photo or a scan in place of a blotter photo: the test is recorded without a result", async () => {
    const record = here("no-blotter");
    await ask(["open", record, "--title", "Wrong pictures", "--json"]);
    for (const other of ["jar-bath-1.jpg", "before.png"]) {
      const words = ["blot", record, "--ink", "red", "--photo", sample(other)];
      expect((await refusalOf(words)).slice(0, 2)).toEqual([4, "spots-not-found"]);
    }
    const { json } = await ask(["export", record, "--json"]);
    expect((json.events as { kind: string }[]).map(({ kind }) => kind)).toEqual(["opened", "blot", "blot"]); // prettier-ignore
  });
});

test("nothing above has changed a sample, or left a half file", () => {
  expect(filesBelow(SAMPLES)).toEqual(samplesBefore);
  expect(Object.keys(filesBelow(folder)).filter((name) => name.endsWith(".part"))).toEqual([]);
});
