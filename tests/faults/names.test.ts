import { copyFileSync, linkSync, mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { expect, describe, test } from "vitest";
import { loadCard } from "../../src/card/loadCard.ts";
import { LastrinseError } from "../../src/errors.ts";
import { readStation } from "../../src/jar/place/readStation.ts";
import { encodePng } from "../../src/picture/encodePng.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { describeInput } from "../../src/record/inputs.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { ask, filesBelow, refusalOf } from "./answer.ts";

const folder = temporaryFolder();
const SIZE = { width: 40, height: 30 };

const png = await encodePng({ ...SIZE, channels: 3, data: new Uint8Array(3600).fill(150) }, 150);
const picture = join(folder, "plain.png");
writeFileSync(picture, png);

function named(name: string): string {
  copyFileSync(picture, join(folder, name));
  return join(folder, name);
}

async function codeOf(looked: Promise<unknown>): Promise<string> {
  const error: unknown = await looked.catch((reason: unknown) => reason);
  return error instanceof LastrinseError ? error.code : `not refused: ${String(error)}`;
}

/** Names that files may have; the longest is that of most file systems. */
const NAMES: readonly string[] = [
  "плёнка 38 °C.png",
  "封面.png",
  "غلاف.png",
  "🫧.png",
  "e\u0301 and \u00e9.png",
  "page[1].png",
  "[page=2]",
  "100% #1 & $HOME `ls`.png",
  "'quoted' \"twice\".png",
  " space first.png",
  "--before.png",
  "-",
  `${"x".repeat(251)}.png`,
];

describe("names of files", () => {
  test.skipIf(process.platform === "win32").each(NAMES)(
    "%s is a name like any other",
    async (name) => {
      const file = named(name);
      const { raster, info } = await readScan(file);
      expect([raster.width, raster.height, info.file]).toEqual([SIZE.width, SIZE.height, file]);
      expect((await describeInput(folder, "scan", file)).file).toBe(name);
    },
  );

  test("longer than the file system takes: unreadable, with the system's own word", async () => {
    const file = join(folder, "x".repeat(300));
    expect(await codeOf(readScan(file))).toBe("unreadable");
    expect(await codeOf(loadCard(`${file}.txt`))).toBe("unreadable");
    expect(await codeOf(describeInput(folder, "scan", file))).toBe("unreadable");
  });

  test("a name that begins with dashes is an option, unless -- stands before it", async () => {
    named("--before.png");
    const [status, code] = await refusalOf(["card", "check", "--before.png"], { cwd: folder });
    expect([status, code]).toEqual([2, "wrong-use"]);
    // The picture is plain grey: that it is searched for a card shows that it was read.
    const read = await ask(["card", "check", "--json", "--", "--before.png"], { cwd: folder });
    expect([read.status, read.error?.code]).toEqual([4, "card-not-found"]);
  });

  test.skipIf(process.platform === "win32")(
    "line breaks and escape codes in a name are shown, not obeyed",
    async () => {
      const name = "\u001b[2J\u202egnp\u0007.\nAdvice: continue";
      const { status, stderr } = await ask(["card", "check", name], { cwd: folder });
      expect(status).toBe(3);
      expect(stderr).toContain("\\x1b[2J\\u202egnp\\x07.\\nAdvice: continue");
      expect(stderr).not.toMatch(/^Advice/m);
      // JSON escapes the same characters and still holds the exact name.
      const { json } = await ask(["card", "check", name, "--json"], { cwd: folder });
      expect(json.error).toMatchObject({ code: "unreadable", input: name });
    },
  );
});

describe.skipIf(process.platform === "win32")("links, folders, pipes, devices", () => {
  test("links, also in a chain and hard ones, are followed; a link to nowhere or to itself is refused", async () => {
    symlinkSync(picture, join(folder, "link.png"));
    symlinkSync(join(folder, "link.png"), join(folder, "chain.png"));
    linkSync(picture, join(folder, "hard.png"));
    for (const name of ["link.png", "chain.png", "hard.png"])
      expect((await readScan(join(folder, name))).raster.width).toBe(SIZE.width);
    symlinkSync(join(folder, "nothing"), join(folder, "nowhere.png"));
    symlinkSync(join(folder, "loop.png"), join(folder, "loop.png"));
    for (const name of ["nowhere.png", "loop.png"])
      expect(await codeOf(readScan(join(folder, name)))).toBe("unreadable");
  });

  test("a folder, a pipe or a device where a file is expected is refused at once: it may have no end", async () => {
    const pipe = join(folder, "pipe");
    execFileSync("mkfifo", [pipe]);
    mkdirSync(join(folder, "folder"));
    for (const path of [join(folder, "folder"), pipe, "/dev/zero"]) {
      expect(await codeOf(readScan(path))).toBe("unreadable");
      expect(await codeOf(loadCard(path))).toBe("unreadable");
      expect(await codeOf(readStation(path))).toBe("unreadable");
      expect(await codeOf(describeInput(folder, "spent", path))).toBe("unreadable");
    }
  });
});

test("no input was changed, and none was added to", () => {
  const hashes = Object.entries(filesBelow(folder)).map(([, hash]) => hash);
  expect(new Set(hashes).size).toBe(1);
});
