import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PAGES } from "../support/pages.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const CHROMIUM = process.env.CHROMIUM_PATH ?? "/usr/bin/chromium";
/** On the build machine the browser is installed: there it may not be missing. */
const missing = !existsSync(CHROMIUM) && process.env.CI !== "true";

/** No start-up traffic: the pages must make none either, and the test counts. */
const QUIET = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** A desk's screen, the same at 200 % zoom, a phone. CSS pixels. */
const WIDTHS = [1280, 640, 390];

/** What is left of the width of a sheet between margins of 15 mm, CSS pixels (96 an inch). */
const PRINTED_WIDTHS = { A4: ((210 - 30) / 25.4) * 96, Letter: (8.5 - 30 / 25.4) * 96 };

const folder = temporaryFolder();
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core"), "utf8");

async function fileOf(name: string): Promise<string> {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `${name.replaceAll(" ", "-")}.html`);
  writeFileSync(path, await PAGES[name]());
  return pathToFileURL(path).href;
}

/** Everything a quiet page must not do. */
function watch(page: Page): string[] {
  const events: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") events.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => events.push(`error: ${error.message}`));
  page.on("request", (request) => {
    if (!/^(data|file):/.test(request.url())) events.push(`request: ${request.url()}`);
  });
  page.on("dialog", (dialog) => {
    events.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  return events;
}

describe.skipIf(missing)(
  missing ? "pages in a browser (skipped: no chromium)" : "pages in a browser",
  () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await chromium.launch({ executablePath: CHROMIUM, args: QUIET });
    });
    afterAll(() => browser.close());

    test.each(Object.keys(PAGES))(
      "%s: no error, no request, no dialog, no axe violation; no sideways scroll at any width",
      async (name) => {
        const page = await browser.newPage();
        const events = watch(page);
        await page.goto(await fileOf(name));
        for (const width of WIDTHS) {
          await page.setViewportSize({ width, height: 900 });
          const overflow = await page.evaluate<number>(
            "document.documentElement.scrollWidth - document.documentElement.clientWidth",
          );
          expect(overflow).toBeLessThanOrEqual(0);
        }
        expect(events).toEqual([]);
        // What axe-core itself does to the page is not the page's doing: listened to before it only.
        await page.evaluate(axe);
        for (const width of [1280, 390]) {
          await page.setViewportSize({ width, height: 900 });
          const violations = await page.evaluate<string[]>(
            `axe.run().then(({ violations }) => violations.map(({ id, nodes }) => id + ": " + nodes.map(({ html }) => html.slice(0, 120)).join(" | ")))`,
          );
          expect(violations).toEqual([]);
        }
        await page.close();
      },
    );

    test("the slider is moved by the keyboard: value, words and the cut of the upper picture follow", async () => {
      const page = await browser.newPage();
      await page.goto(await fileOf("final"));
      const slider = page.locator("input[type=range]").first();
      expect(await slider.isVisible()).toBe(false);
      // Opened by keyboard as well.
      await page.getByText("Lay one over the other").first().focus();
      await page.keyboard.press("Enter");
      await slider.focus();
      for (let i = 0; i < 5; i++) await page.keyboard.press("ArrowRight");
      expect(await slider.inputValue()).toBe("55");
      expect(await slider.getAttribute("aria-valuetext")).toBe("left 55 % before, the rest after");
      const clip = await page.evaluate<string>(
        `getComputedStyle(document.querySelector(".stage img + img")).clipPath`,
      );
      expect(clip).toContain("45%");
      await page.keyboard.press("Home");
      expect(await slider.inputValue()).toBe("0");
      await page.close();
    });

    test("outlines of inks and marks of damage are switched in all four pictures", async () => {
      const page = await browser.newPage();
      await page.goto(await fileOf("compare"));
      const shown = (part: string) =>
        page.evaluate<number>(
          `[...document.getElementsByClassName("${part}")].filter((one) => getComputedStyle(one).display !== "none").length`,
        );
      expect(await shown("pair-ink-1")).toBe(0);
      await page.getByLabel("outline of red").check();
      expect(await shown("pair-ink-1")).toBe(4);
      expect(await shown("pair-ink-2")).toBe(0);
      expect(await shown("pair-damage")).toBe(4);
      await page.getByLabel("places of damage").uncheck();
      expect(await shown("pair-damage")).toBe(0);
      await page.close();
    });

    test("without scripts nothing is offered that would not work, and damage stays marked", async () => {
      const context = await browser.newContext({ javaScriptEnabled: false });
      const page = await context.newPage();
      await page.goto(await fileOf("final"));
      expect(await page.locator("fieldset").first().isVisible()).toBe(false);
      expect(await page.locator("details").first().isVisible()).toBe(false);
      expect(await page.locator(".mark").first().isVisible()).toBe(true);
      await context.close();
    });

    test.each(["interim", "final"])(
      "%s printed: no table is wider than the sheet, no row is cut, heads repeat, controls are left out",
      async (name) => {
        const page = await browser.newPage();
        await page.goto(await fileOf(name));
        await page.emulateMedia({ media: "print" });
        for (const [format, width] of Object.entries(PRINTED_WIDTHS)) {
          await page.setViewportSize({ width: Math.floor(width), height: 900 });
          const tooWide = await page.evaluate<string[]>(
            `[...document.querySelectorAll("table, svg, img")].filter((one) => one.getBoundingClientRect().right > innerWidth + 0.5).map(({ outerHTML }) => outerHTML.slice(0, 80))`,
          );
          expect(tooWide).toEqual([]);
          const pdf = await page.pdf({ format });
          expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
        }
        const styles = (selector: string, property: string) =>
          page.evaluate<string[]>(
            `[...new Set([...document.querySelectorAll("${selector}")].map((one) => getComputedStyle(one)["${property}"]))]`,
          );
        expect(await styles("tr", "breakInside")).toEqual(["avoid"]);
        expect(await styles("thead", "display")).toEqual(["table-header-group"]);
        if (name === "final")
          expect(await styles("fieldset, details", "display")).toEqual(["none"]);
        await page.close();
      },
    );
  },
);
