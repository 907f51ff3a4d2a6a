import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { CARDS, DEFAULT_CARD_NAME } from "../../src/card/cards.ts";
import { loadCard } from "../../src/card/loadCard.ts";
import { LastrinseError } from "../../src/errors.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();

function put(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

async function refusal(nameOrFile: string, strict = false): Promise<LastrinseError> {
  try {
    await loadCard(nameOrFile, { strict });
  } catch (error) {
    if (error instanceof LastrinseError) return error;
    throw error;
  }
  throw new Error("was not refused");
}

const [chart] = CARDS;
const rows = chart.patches.map(({ lab }, i) => `${i + 1} ${lab.join(" ")}`).join("\n");
const text = `CGATS.17\n\nORIGINATOR "measured at 23 °C"\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS 24\nBEGIN_DATA\n${rows}\nEND_DATA\n`;
const json = { schema: "lastrinse.card", version: 1, ...chart };

test("built-in names, and the default", async () => {
  for (const card of CARDS) expect(await loadCard(card.name)).toBe(card);
  expect((await loadCard()).name).toBe(DEFAULT_CARD_NAME);
});

test.each<[string, string | Uint8Array]>([
  ["utf8.txt", text],
  ["latin1.txt", Buffer.from(text, "latin1")],
  ["utf16.txt", Buffer.from(`\uFEFF${text}`, "utf16le")],
  ["mark.txt", `\uFEFF${text}`],
])("a text file: %s", async (name, content) => {
  const path = put(name, content);
  const card = await loadCard(path);
  expect(card.name).toBe(path);
  expect(card.patches.map(({ lab }) => lab)).toEqual(chart.patches.map(({ lab }) => lab));
});

test("a card printed as JSON comes back as it was", async () => {
  const path = put("own.json", JSON.stringify(json));
  expect(await loadCard(path)).toEqual({ ...chart, name: path });
  const marked = put("marked.json", `\uFEFF${JSON.stringify(json, null, 2)}`);
  expect((await loadCard(marked)).patches).toEqual(chart.patches);
});

test("what a JSON file leaves out", async () => {
  const { rows: r, columns: c } = chart;
  const bare = { schema: "lastrinse.card", version: 1, rows: r, columns: c, patches: chart.patches.map(({ name, lab }) => ({ name, lab })) }; // prettier-ignore
  const card = await loadCard(put("bare.json", JSON.stringify(bare)));
  expect(card.patches.map(({ neutral }) => neutral)).toEqual(chart.patches.map((p) => p.neutral));
  expect(card.pitchMm).toBeNull();
  expect(card.measured).toBe(true);
});

test("an assumption is a note, and under strict a refusal", async () => {
  const path = put("assumed.txt", text);
  expect((await loadCard(path)).notes).toEqual(["No illuminant is named: D50 assumed."]);
  expect((await refusal(path, true)).message).toContain("D50 assumed");
});

describe("refused", () => {
  test("a word that is neither name nor file, a path that is not there, a folder", async () => {
    expect((await refusal("chart25")).code).toBe("wrong-use");
    expect((await refusal("chart25")).message).toContain("chart24-post2014");
    expect((await refusal(join(folder, "none.txt"))).code).toBe("unreadable");
    expect((await refusal(folder)).code).toBe("unreadable");
  });

  test("binary data, and a file too large to be a table", async () => {
    const binary = await refusal(
      put("picture.png", Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 0)),
    );
    expect(binary.code).toBe("unreadable");
    expect(binary.message).toContain("binary");
    expect((await refusal(put("large.txt", "x ".repeat(5e6)))).code).toBe("unreadable");
    expect((await refusal(put("empty.txt", ""))).code).toBe("unreadable");
  });

  test.each<[string, unknown, string]>([
    ["another schema", { ...json, schema: "lastrinse.station" }, "schema"],
    ["a patch too few", { ...json, patches: chart.patches.slice(1) }, "rows times columns"],
    ["a patch without values", { ...json, patches: chart.patches.with(3, { name: "x" } as never) }, "patches[3].lab"], // prettier-ignore
    ["an impossible colour", { ...json, patches: chart.patches.with(3, { name: "x", lab: [400, 0, 0], neutral: false }) }, "patches[3].lab[0]"], // prettier-ignore
    ["two patches of one name", { ...json, patches: chart.patches.with(3, chart.patches[4]) }, "name of its own"], // prettier-ignore
    ["no size", { ...json, rows: undefined }, "rows"],
    ["a list", [1, 2], "the top level"],
  ])("JSON with %s", async (_, content, words) => {
    const error = await refusal(put("bad.json", JSON.stringify(content)));
    expect(error.code).toBe("bad-json");
    expect(error.message).toContain(words);
  });

  test("broken JSON", async () => {
    expect((await refusal(put("broken.json", '{"schema":'))).code).toBe("bad-json");
  });
});
