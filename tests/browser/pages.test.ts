import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, chromium } from "playwright-core";
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

const folder = temporaryFolder();
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core"), "utf8");

async function fileOf(name: string): Promise<string> {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `${name.replaceAll(" ", "-")}.html`);
  writeFileSync(path, await PAGES[name]());
  return pathToFileURL(path).href;
}

describe.skipIf(missing)(
  missing ? "pages in a browser (skipped: no chromium)" : "pages in a browser",
  () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await chromium.launch({ executablePath: CHROMIUM, args: QUIET });
    });
    afterAll(() => browser.close());

    describe.each(Object.keys(PAGES))("%s", (name) => {
      test.each([1280, 390])(
        "at %i px: no console error, no request, no axe violation, no sideways scroll",
        async (width) => {
          const page = await browser.newPage({ viewport: { width, height: 900 } });
          const errors: string[] = [];
          const requests: string[] = [];
          page.on("console", (message) => {
            if (message.type() === "error") errors.push(message.text());
          });
          page.on("pageerror", (error) => errors.push(error.message));
          page.on("request", (request) => {
            if (!/^(data|file):/.test(request.url())) requests.push(request.url());
          });
          await page.goto(await fileOf(name));
          expect(errors).toEqual([]);
          expect(requests).toEqual([]);
          await page.evaluate(axe);
          const violations = await page.evaluate<string[]>(
            `axe.run().then(({ violations }) => violations.map(({ id, nodes }) => id + ": " + nodes.map(({ html }) => html.slice(0, 120)).join(" | ")))`,
          );
          expect(violations).toEqual([]);
          const overflow = await page.evaluate<number>(
            "document.documentElement.scrollWidth - document.documentElement.clientWidth",
          );
          expect(overflow).toBeLessThanOrEqual(0);
          await page.close();
        },
      );
    });

    test("the slider is moved by the keyboard and says where it stands", async () => {
      const page = await browser.newPage();
      await page.goto(await fileOf("final"));
      const asked = page.locator("button, summary, input[type=checkbox]", {
        hasText: /slider|over each other|lay/i,
      });
      if ((await page.locator("input[type=range]:visible").count()) === 0)
        await asked.first().click();
      const slider = page.locator("input[type=range]:visible").first();
      await slider.focus();
      const before = await slider.inputValue();
      const said = await slider.getAttribute("aria-valuetext");
      for (let i = 0; i < 5; i++) await page.keyboard.press("ArrowRight");
      expect(await slider.inputValue()).not.toBe(before);
      expect(await slider.getAttribute("aria-valuetext")).not.toBe(said);
      await page.close();
    });

    test("printed, no row of a table is cut: rows may not break inside, heads repeat", async () => {
      const page = await browser.newPage();
      await page.goto(await fileOf("final"));
      await page.emulateMedia({ media: "print" });
      const breaks = await page.evaluate<string[]>(
        `[...document.querySelectorAll("tr")].map((row) => getComputedStyle(row).breakInside)`,
      );
      expect(breaks.length).toBeGreaterThan(5);
      expect(new Set(breaks)).toEqual(new Set(["avoid"]));
      for (const format of ["A4", "Letter"]) {
        const pdf = await page.pdf({ format });
        expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
      }
      await page.close();
    });
  },
);
