import { copyFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { ask, filesBelow, refusalOf } from "./answer.ts";

const folder = temporaryFolder();
const here = (name: string): string => join(folder, name);
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));
const station = ["--station", sample("station.json")];
const shape = ["--jar", "flat", "--inside-mm", "50", "--passes", "1"];
const dry = ["--before-state", "dry", "--after-state", "dry"];

beforeAll(async () => {
  /** Half of the pixels of the sample scans serve as well and take half the time; both of one size, for one file. */
  const size = { width: 820, height: 1360 };
  const pixels = await Promise.all(
    ["before.png", "after.png"].map(async (name) => {
      const { width = 0, height = 0, density = 0 } = await sharp(sample(name)).metadata();
      const scaled = { width: Math.round(width / 2), height: Math.round(height / 2) };
      const small = await sharp(sample(name)).resize(scaled).png().toBuffer();
      await sharp(small).withDensity(density / 2).png().toFile(here(name)); // prettier-ignore
      return sharp(small)
        .extend({
          right: size.width - scaled.width,
          bottom: size.height - scaled.height,
          background: "#e8e8e8",
        })
        .raw()
        .toBuffer();
    }),
  );
  await sharp(Buffer.concat(pixels), {
    raw: { width: size.width, height: 2 * size.height, channels: 3, pageHeight: size.height },
  })
    .tiff({ compression: "lzw" })
    .toFile(here("both.tif"));
  await sharp(here("before.png")).tiff({ compression: "deflate" }).toFile(here("before.tif"));
  copyFileSync(here("before.png"), here("washed.png"));
  for (const name of ["jar-bath-1.jpg", "jar-blank.jpg"])
    await sharp(sample(name))
      .rotate(180)
      .png()
      .toFile(here(`over-${name}.png`));
  await sharp(sample("jar-bath-1.jpg")).rotate(90).png().toFile(here("on-its-side.png"));
  await sharp(sample("jar-blank.jpg")).png().toFile(here("blank.png"));
});

describe("one picture in two roles", () => {
  test("compare: the same file, a copy, the same pixels in another form; both named", async () => {
    for (const other of ["before.png", "washed.png", "before.tif"])
      expect(await refusalOf(["compare", here("before.png"), here(other), ...dry])).toEqual([
        4,
        "same-picture",
        expect.stringContaining(here(other)),
      ]);
  });

  test("compare: two pages of one file are two pictures, the same page twice is one", async () => {
    const both = [here("both.tif"), here("both.tif")];
    const dpi = ["--dpi", "100"];
    const once = await refusalOf(["compare", ...both, ...dry, ...dpi, "--page", "2"]);
    expect(once).toEqual([4, "same-picture", expect.stringContaining("page 2 of")]);
    const overridden = ["--page", "2", "--before-page", "1", "--after-page", "1"];
    const first = await refusalOf(["compare", ...both, ...dry, ...dpi, ...overridden]);
    expect(first).toEqual([4, "same-picture", expect.stringContaining("page 1 of")]);
    const pages = ["--before-page", "1", "--after-page", "2"];
    const { status, json } = await ask(["compare", ...both, ...dry, ...pages, ...dpi, "--json"]);
    expect(status).toBe(0);
    const { paper } = json as { paper: { deltaL: number } };
    // The sample's paper came out lighter by about 2.
    expect(paper.deltaL).toBeGreaterThan(1);
  });

  test("after: the before scan given again is refused and not recorded", async () => {
    const record = here("record");
    await ask(["open", record, "--title", "Twice"]);
    expect((await ask(["before", record, here("before.png"), "--state", "dry"])).status).toBe(0);
    const events = filesBelow(join(record, "events"));
    const again = await refusalOf(["after", record, here("before.tif"), "--state", "dry"]);
    expect(again).toEqual([4, "same-picture", expect.stringContaining("before.tif")]);
    expect(filesBelow(join(record, "events"))).toEqual(events);
  });

  test("jar: the blank given as the bath, under another name and form", async () => {
    for (const geometry of [station, shape])
      expect(
        await refusalOf(["jar", here("blank.png"), "--blank", sample("jar-blank.jpg"), ...geometry]), // prettier-ignore
      ).toEqual([4, "same-picture", expect.stringContaining("the blank and the spent bath")]);
  });

  test("bath: refused likewise; the bath itself counts", async () => {
    const record = here("bath-record");
    await ask(["open", record, "--title", "Blank twice"]);
    const conditions = ["--kind", "wash", "--surfactant", "--minutes", "5", "--volume-ml", "500"];
    const files = ["--spent", sample("jar-blank.jpg"), "--blank", sample("jar-blank.jpg"), ...station]; // prettier-ignore
    const refused = await refusalOf(["bath", record, ...conditions, ...files]);
    expect(refused.slice(0, 2)).toEqual([4, "same-picture"]);
    const { json } = await ask(["advise", record, "--json"]);
    expect(json.baths).toBe(1);
  });
});

describe("photos mixed up or turned", () => {
  test("spent bath and blank swapped: the blank has more colour, and the remedy asks whether they are mixed up", async () => {
    for (const geometry of [station, shape]) {
      const words = ["jar", sample("jar-blank.jpg"), "--blank", sample("jar-bath-1.jpg"), ...geometry]; // prettier-ignore
      const { status, error } = await ask([...words, "--json"]);
      expect([status, error?.code]).toEqual([4, "blank-darker"]);
      expect(error?.message).toMatch(/jar-bath-1\.jpg.*jar-blank\.jpg.*per cm/);
      expect(error?.remedy).toMatch(/mixed up/);
    }
  });

  test("upside down, before the backing and at a station, bath or blank: said to be", async () => {
    for (const words of [
      [here("over-jar-bath-1.jpg.png"), "--blank", sample("jar-blank.jpg"), ...station],
      [sample("jar-bath-1.jpg"), "--blank", here("over-jar-blank.jpg.png"), ...shape],
    ]) {
      const refused = await refusalOf(["jar", ...words]);
      expect(refused).toEqual([4, "station-not-found", expect.stringContaining("upside down")]);
    }
  });

  test("on its side: said to be", async () => {
    const words = ["jar", here("on-its-side.png"), "--blank", sample("jar-blank.jpg"), ...shape];
    expect(await refusalOf(words)).toEqual([
      4,
      "station-not-found",
      expect.stringContaining("on its side"),
    ]);
  });
});
