import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { plainJson, plainLine, plainText } from "../../cli/plainText.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { ask } from "./answer.ts";

const folder = temporaryFolder();

describe("text for people", () => {
  test.each([
    ["\u001b]0;title\u0007", "\\x1b]0;title\\x07"],
    ["\u009b2J", "\\x9b2J"],
    ["safe\rover", "safe\\x0dover"],
    ["a\u202egnp.exe", "a\\u202egnp.exe"],
    ["\u2066x\u2069", "\\u2066x\\u2069"],
    ["delete\u007f", "delete\\x7f"],
    ["two\u2028lines", "two\\u2028lines"],
  ])("%j is shown as %s", (text, shown) => {
    expect(plainText(text)).toBe(shown);
  });

  test("what is no order stays: scripts, marks, emoji, tabs, line ends of both kinds", () => {
    const text = "Ürümqi\t封面 غلاف עמוד 🫧 e\u0301 می\u200cخواهم\nline\r\n";
    expect(plainText(text)).toBe(text);
    expect(plainLine("one\nAdvice: continue\r\nthree")).toBe("one\\nAdvice: continue\\nthree");
  });

  test("of any text nothing is left that a terminal obeys, and doing it twice changes nothing more", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        const plain = plainText(text);
        // Unicode categories instead of the pattern's own ranges: controls, and the format characters of direction.
        for (const character of plain.replaceAll("\r\n", "\n"))
          expect(/\p{Cc}/u.test(character) && !"\t\n".includes(character)).toBe(false);
        expect(/\p{Bidi_Control}/u.test(plain.replaceAll(/[\u061c\u200e\u200f]/g, ""))).toBe(false);
        expect(plainText(plain)).toBe(plain);
      }),
      { seed: 61 },
    );
  });

  test("JSON keeps its exact value", () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const json = JSON.stringify(value);
        expect(JSON.parse(plainJson(json))).toEqual(JSON.parse(json));
      }),
      { seed: 62 },
    );
  });
});

/** One of each: markup, a formula, an order to the terminal, a carriage return over the line, a turned direction, a line break. */
const HOSTILE = "<script>alert(1)</script>\u001b[31m\u202eevil\r=1+1\nAdvice: continue";
const FORMULAS = ['=HYPERLINK("http://x")', "+1", "-1+2", "@SUM(A1)", "\t=1", "\r=1"];

describe("a record full of hostile text", () => {
  const record = join(folder, "hostile");

  beforeAll(async () => {
    // `ask` itself checks that nothing is printed that a terminal would obey.
    expect((await ask(["open", record, "--title", HOSTILE, "--object", FORMULAS[0]])).status).toBe(
      0,
    );
    for (const what of FORMULAS) await ask(["step", record, "--what", what]);
    const photo = join(folder, "=1+1\u001b[5m <img src=x onerror=alert(1)>.jpg");
    writeFileSync(photo, "not a photo");
    const blot = ["blot", record, "--ink", HOSTILE, "--result", "bleeds", "--photo", photo];
    const { stdout } = await ask(blot);
    expect(stdout).not.toMatch(/^Advice/m);
  });

  test("advise: nothing in a name starts a line of its own", async () => {
    const { status, stdout } = await ask(["advise", record]);
    expect(status).toBe(0);
    expect(stdout).toContain("\\x1b[31m\\u202eevil");
    // The verdict's own line, and no other.
    expect(stdout.match(/^Advice: .*$/gm)).toHaveLength(1);
    expect(stdout).not.toContain("\nAdvice: continue");
  });

  test("export --csv: no cell runs as a formula, none holds an order", async () => {
    const { stdout } = await ask(["export", record, "--csv", "--out", folder]);
    expect(readFileSync(join(folder, "record.csv"), "utf8")).toBe(stdout);
    const cells = [...stdout.matchAll(/(?:^|,)("(?:[^"]|"")*"|[^,\r\n]*)/gm)].map(
      ([, cell]) => cell,
    );
    expect(cells.length).toBeGreaterThan(100);
    for (const cell of cells) expect(cell.replace(/^"/, "")).not.toMatch(/^[=+\-@\t\r]/);
    for (const formula of FORMULAS.slice(0, 4))
      expect(stdout).toContain(`'${formula.replaceAll('"', '""')}`);
  });

  test("export --json: the exact text comes back", async () => {
    const { json } = await ask(["export", record, "--json"]);
    const [opened, ...rest] = json.events as { settings: { title: string; what?: string } }[];
    expect(opened.settings.title).toBe(HOSTILE);
    expect(rest.flatMap(({ settings }) => settings.what ?? [])).toEqual(FORMULAS);
  });

  test("report: markup is text", async () => {
    const { status } = await ask(["report", record, "--json"]);
    expect(status).toBe(0);
    const html = readFileSync(join(record, "report", "report.html"), "utf8");
    expect(html).toContain("&lt;script>alert(1)");
    expect(html).not.toContain("<script>alert");
    expect(html).not.toMatch(/<img[^>]* onerror/);
  });
});

test("a card file whose names hold orders and formulas is printed harmlessly", async () => {
  const patches = Array.from({ length: 24 }, (_, i) => ({
    name: `\u001b[7m${String(i)}\nL* 100`,
    lab: [4 * i, 0, 0],
  }));
  const file = join(folder, "card.json");
  writeFileSync(file, JSON.stringify({ schema: "lastrinse.card", version: 1, title: HOSTILE, rows: 4, columns: 6, patches })); // prettier-ignore
  const { status, stdout } = await ask(["card", "show", file]);
  expect(status).toBe(0);
  expect(stdout.trimEnd().split("\n")).toHaveLength(3 + 24);
});
