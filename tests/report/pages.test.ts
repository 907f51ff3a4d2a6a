import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { showControls } from "../../src/report/showControls.ts";
import { SCRIPT } from "../../src/report/script.ts";
import { treatmentJson } from "../../src/report/treatmentJson.ts";
import { PAGES } from "../support/pages.ts";
import { emptyView, HOSTILE, treatmentView } from "../support/treatmentView.ts";
import { faultsOf } from "../support/wellFormed.ts";

/** The hostile text as a page has to write it. */
const SHOWN = showControls(
  HOSTILE.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;"),
);

const hash = (text: string): string =>
  `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

const insideOf = (html: string, tag: string): string[] =>
  [...html.matchAll(new RegExp(`<${tag}[^>]*>([\\s\\S]*?)</${tag}>`, "g"))].map(([, text]) => text);

describe.each(Object.entries(PAGES))("page: %s", (name, draw) => {
  test("is well-formed, safe, self-contained and small", async () => {
    const html = await draw();
    expect(faultsOf(html)).toEqual([]);

    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1] ?? "";
    expect(policy).toContain("default-src 'none'");
    const styles = insideOf(html, "style");
    const scripts = insideOf(html, "script");
    expect(styles).toHaveLength(1);
    expect(policy).toContain(`style-src ${hash(styles[0])}`);
    for (const script of scripts) {
      expect(script).toBe(SCRIPT);
      expect(policy).toContain(`script-src ${hash(script)}`);
    }

    // Nothing but data addresses and places in the page itself; the one namespace address is never fetched.
    const addresses = [...html.matchAll(/\s(?:href|src|srcset|action|poster|data)="([^"]*)"/g)].map(
      ([, address]) => address,
    );
    for (const address of addresses)
      expect(address).toMatch(/^(?:data:image\/(?:png|jpeg);base64,|#)/);
    expect(html.replaceAll(/data:image\/[a-z]+;base64,[A-Za-z0-9+/=]*/g, "")).not.toMatch(
      /https?:|@import|url\(/,
    );
    expect(Buffer.byteLength(html)).toBeLessThan(8_000_000);
    // Control characters and turning marks are shown as signs, never sent on.
    expect(showControls(html)).toBe(html);
    if (name !== "interim without any scan") expect(html).toContain(SHOWN);
  });

  test("gives the same bytes twice", async () => {
    expect(await draw()).toBe(await draw());
  });
});

describe("what the pages say first", () => {
  const textOf = (html: string): string =>
    insideOf(html, "body")[0]
      .replaceAll(/<script>[\s\S]*<\/script>/g, "")
      .replaceAll(/<[^>]*>/g, " ")
      .replaceAll(/\s+/g, " ")
      .trim();

  test("final: disclosure of the washing, then the statement before any picture", async () => {
    const html = await PAGES.final();
    const text = textOf(html);
    expect(text).toMatch(
      /^Washed in water on 1 March 2026, 2 March 2026 and 3 March 2026\. Disclose at sale, loan or grading\./,
    );
    expect(text).toContain("Not a condition grade, authentication or valuation.");
    expect(text.indexOf("Statement of treatment")).toBeLessThan(
      text.indexOf("Before, after and difference"),
    );
    // A refused side is named with its remedy; its figures are not made up.
    expect(text).toContain("No figures for the back. Expected two scans of one sheet.");
    expect(text).toContain("Scan the back again.");
    expect(text).toContain("Bath 2: time and pH repeated from the last bath, not confirmed.");
    expect(text).toContain("Not scanned again after washing: back.");
  });

  test("interim: where the sheet belongs, then the verdict, before any reason", async () => {
    const text = textOf(await PAGES.interim());
    const places = [
      "The sheet now Into a plain bath (without surfactant).",
      "Advice One plain rinse first, then ask again.",
      "Why",
      "Fade so far",
    ].map((words) => text.indexOf(words));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    expect(text).toContain("31 %");
  });

  test("without a scan: says what to do, names no figure", async () => {
    const text = textOf(await PAGES["interim without any scan"]());
    expect(text).toContain("scan the dry cover before it gets wet");
    expect(text).toContain("No bath is in the record.");
    expect(text).not.toContain("NaN");
  });

  test("missing figures are words, never zero", async () => {
    const html = await PAGES.compare();
    const row = insideOf(html, "tr").find((one) => one.includes("=cmd()")) ?? "";
    expect(row).toContain("not measured");
    expect(row).not.toContain("0.00");
    expect(textOf(html)).not.toMatch(/NaN|undefined|null/);
  });

  test("an unmeasured card: differences only, and it says so", async () => {
    const text = textOf(await PAGES["compare with a card that was never measured"]());
    expect(text).toContain("The card's own colours were never measured.");
    expect(text).toContain("No bare paper was found in both scans");
  });
});

test("the JSON beside the page holds no pictures and no events", async () => {
  for (const view of [await treatmentView("final"), await emptyView()]) {
    const text = JSON.stringify(treatmentJson(view));
    expect(text.length).toBeLessThan(60_000);
    const json = JSON.parse(text) as Record<string, unknown>;
    expect(json.schema).toBe("lastrinse.treatment");
    expect(Object.keys(json)).not.toContain("events");
    expect(text).not.toContain('Photo":{');
  }
});
