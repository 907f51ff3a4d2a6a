import { describe, expect, test } from "vitest";
import { deviationsOf } from "../../src/report/statementPart.tsx";
import { finalReport } from "../../src/report/finalReport.tsx";
import { treatmentReport } from "../../src/report/treatmentReport.ts";
import { interimReport } from "../../src/report/interimReport.tsx";
import type { BathView, TreatmentView } from "../../src/record/treatmentView.ts";
import type { InkReport } from "../../src/results/compareResult.ts";
import type { RecordEvent } from "../../src/record/event.ts";
import { numbered } from "../support/memoryRecord.ts";
import { PAGES } from "../support/pages.ts";
import { treatmentView } from "../support/treatmentView.ts";

const textOf = (html: string): string =>
  html
    .replaceAll(/<(script|style)[^>]*>[\s\S]*?<\/\1>/g, "")
    .replaceAll(/<[^>]*>/g, " ")
    .replaceAll("&nbsp;", " ")
    .replaceAll(/\s+/g, " ");

async function statement(more: Partial<TreatmentView> = {}): Promise<string> {
  const text = textOf(finalReport(await treatmentView("final", { comparisons: [], ...more }), []));
  return text.slice(text.indexOf("Statement of treatment"), text.indexOf("Not a condition grade"));
}

async function bathsWith(
  change: (bath: BathView, i: number) => Partial<BathView>,
): Promise<readonly BathView[]> {
  return (await treatmentView("final")).baths.map((bath, i) => ({ ...bath, ...change(bath, i) }));
}

describe("the statement of treatment tells all", () => {
  test("measured before predicted, the prediction by its upper bound, and what no bath can show", async () => {
    const text = textOf(await PAGES.final());
    const measured = text.indexOf(
      "Measured dry, loss of ink with its interval: red 1.40 (0.90 to 1.90) dE00",
    );
    const predicted = text.indexOf("Predicted from the baths, fade in dE00 (90 %): red up to 2.70");
    expect(measured).toBeGreaterThan(0);
    expect(predicted).toBeGreaterThan(measured);
    expect(text).toContain("where it stands: blue.");
  });

  test("inks that could not be judged are no inks without loss", async () => {
    const [first] = (await treatmentView("final")).comparisons;
    const withInks = (change: (ink: InkReport) => Partial<InkReport>) => ({
      comparisons: [
        {
          ...first,
          compared: {
            ...first.compared!,
            result: {
              ...first.compared!.result,
              inks: first.compared!.result.inks.map((ink) => ({ ...ink, ...change(ink) })),
            },
          },
        },
      ],
    });
    const none = withInks(() => ({ verdict: "uncertain", inkPartDeltaE00: null }));
    const textWith = async (more: Partial<TreatmentView>) =>
      textOf(await treatmentReport(await treatmentView("final", more)));
    const noneText = await textWith(none);
    expect(noneText).not.toContain("no loss of ink is shown");
    expect(noneText).toContain("Scanned dry, but no ink could be judged.");
    const some = withInks(({ id }) =>
      id === "red"
        ? { verdict: "uncertain", inkPartDeltaE00: null }
        : { verdict: "no-change-shown", inkPartDeltaE00: 0.1 },
    );
    const someText = await textWith(some);
    expect(someText).toContain("Measured dry: no loss of ink is shown.");
    expect(someText).toContain("Whether ink was lost is not known of red.");
  });

  test("a limit moved under way, and baths after the dry scan, are deviations", async () => {
    const view = await treatmentView("final");
    const event = (kind: string, id: string, settings: unknown) =>
      ({ ...view.events[0], kind, id, settings }) as RecordEvent;
    const [opened] = numbered([]);
    const limits = { maxDeltaE00: 50, risk: 0.9, minGain: 0 };
    const moved = event("amended", "000005", { event: opened.id, why: null, withdrawn: false, changes: { limits } }); // prettier-ignore
    const after = event("after", "000006", {});
    const bath = event("bath", "000004", {});
    const told = (events: readonly RecordEvent[]) =>
      deviationsOf({ ...view, events })
        .join("\n")
        .replaceAll("\u00a0", " ");
    expect(told([opened, bath, moved, after])).toContain(
      "The limit was moved after bath 1: agreed at opening were 2.0 dE00 at a risk of 10 %, then 50.0 dE00 at 90 %.",
    );
    expect(told([opened, bath, after])).not.toMatch(/moved|after the last dry scan|No bath/);
    expect(told([opened, bath, after, bath])).toContain("1 bath was taken after the last dry scan");
    expect(told([opened, after])).toContain("No bath is recorded before the washed sheet");
  });

  test("without a scan that could be compared it says so, and doesn't call the prediction a measurement", async () => {
    expect(await statement()).toContain("Loss of ink was not measured");
  });

  test("surfactant and alkali are named, bath by bath", async () => {
    const text = await statement();
    expect(text).toContain(
      "wash, with surfactant, 5 min, 38 °C, pH 8.5: 25 mL limewater in 500 mL",
    );
    expect(text).toContain("rinse, without surfactant");
    expect(text).toContain("Surfactant: in baths 1 and 2.");
    expect(text).toContain("Alkali: in baths 1 (pH 8.5), 2 (pH 8.5) and 3 (pH 8.5).");
    expect(text).toContain("came 1 plain bath (without surfactant)");
    expect(text).toContain("The last bath had pH 8.5: its alkali is left in the paper");
  });

  test("what nobody stated is said to be that, and not left out", async () => {
    const baths = await bathsWith(({ settings }) => ({
      settings: { ...settings, phIn: null, composition: null },
    }));
    const text = await statement({ baths });
    expect(text).toContain("pH not stated: baths 1, 2 and 3.");
    expect(text).toContain("What baths 1, 2 and 3 held is not named.");
    expect(text).toContain("whether alkali is left in the paper is not known");
    expect(text).not.toContain("Alkali: none");
  });
});

describe("deviations", () => {
  const advised = (
    verdict: BathView["adviceBefore"]["verdict"],
    headline: string,
    sheetNow: BathView["adviceBefore"]["sheetNow"],
  ) => bathsWith((_, i) => (i === 2 ? { adviceBefore: { verdict, headline, sheetNow } } : {}));
  const said = async (baths: readonly BathView[]): Promise<string> =>
    deviationsOf(await treatmentView("final", { baths })).join("\n");

  test.each([
    [
      "stop",
      "stop cleaning; no further bath, let it dry",
      "drain-on-support",
      'Bath 3 was taken after "stop". The advice before it: stop cleaning; no further bath',
    ],
    [
      "not-decidable",
      "cannot be decided yet",
      "drain-on-support",
      "Bath 3 was taken against the advice before it: cannot be decided yet.",
    ],
    ["lift", "lift the sheet out", "blot-both-faces", "against the advice before it: lift"],
    ["do-not-immerse", "do not put", "not-in-water", "against the advice before it: do not put"],
  ] as const)("a bath taken after %s stands there", async (verdict, headline, sheetNow, text) => {
    expect(await said(await advised(verdict, headline, sheetNow))).toContain(text);
  });

  test.each([
    ["continue", "another bath is within your limits", "in-bath"],
    ["rinse-first", "one plain rinse first, then ask again", "in-rinse"],
    ["stop", "stop cleaning; one last alkaline bath, then dry", "in-rinse"],
  ] as const)(
    "a plain bath that was asked for (%s: %s) doesn't",
    async (verdict, headline, now) => {
      expect(await said(await advised(verdict, headline, now))).not.toMatch(/Bath 3 was taken/);
    },
  );

  test("a bath with surfactant where a plain one was asked for does", async () => {
    const baths = await bathsWith(({ settings }, i) =>
      i === 2
        ? {
            settings: { ...settings, surfactant: true },
            adviceBefore: {
              verdict: "rinse-first",
              headline: "one plain rinse",
              sheetNow: "in-rinse",
            },
          }
        : {},
    );
    expect(await said(baths)).toContain(
      "Bath 3 was taken against the advice before it: one plain rinse",
    );
  });

  test("notes about files don't; a hole in the record does", async () => {
    const lines = (code: "input-missing" | "input-changed" | "event-damaged") =>
      treatmentView("final", { warnings: [{ code, message: "somewhere.png moved" }] }).then(
        (view) => deviationsOf(view).join("\n"),
      );
    for (const code of ["input-missing", "input-changed"] as const)
      expect(await lines(code)).not.toContain("somewhere.png");
    const damaged = await lines("event-damaged");
    expect(damaged).not.toContain("somewhere.png");
    expect(damaged).toContain("The record is not whole");
  });
});

describe("a range that reaches far has no mark in its middle", () => {
  async function marksOf(range: readonly [number, number, number]): Promise<number> {
    const baths = await bathsWith(() => ({ fadeSoFar: { red: range }, components: null }));
    const html = interimReport(await treatmentView("interim", { baths, nextBath: null }), null);
    return [...html.matchAll(/<circle/g)].length;
  }

  test.each([
    ["from nothing to 4", [0, 0.1, 3.94], 0],
    ["five times as far", [0.5, 1, 2.5], 0],
    ["narrow", [0.9, 1.2, 1.6], 3],
  ] as const)("%s", async (_, range, marks) => {
    expect(await marksOf(range)).toBe(marks);
  });

  test("the words say the upper bound", async () => {
    const baths = await bathsWith(() => ({ fadeSoFar: { red: [0, 0.1, 3.94] } }));
    const text = textOf(interimReport(await treatmentView("interim", { baths }), null));
    expect(text).toContain("up to 3.94");
    expect(text).not.toContain("0.10 (0.00 to 3.94)");
    expect(text).toContain("not measurable from the bath");
  });
});
