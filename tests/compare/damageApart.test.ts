import { expect, test } from "vitest";
import { damageApart } from "../../src/compare/damageApart.ts";
import { findDamage } from "../../src/compare/findDamage.ts";
import { changedSheet, PAPER_LAB } from "../support/changedSheet.ts";
import { compareResult } from "../support/treatmentView.ts";

/** A brown line across the lower margin, 62 mm down. */
const { view, labels, cores } = changedSheet({
  after: (_, y) => {
    const share = Math.exp(-((y - 62) ** 2));
    return [-2 * share, 0.6 * share, 1.6 * share];
  },
});
const { paper, inks } = compareResult();

test("a thread of its own finds what the call finds", async () => {
  const sheet = { mask: new Uint8Array(labels.length).fill(1) };
  const given: Parameters<typeof findDamage> = [
    view,
    { labels, cores, sheet },
    { paper: { ...paper!, labBefore: PAPER_LAB, labAfter: PAPER_LAB }, inks },
  ];
  const here = findDamage(...given);
  expect(here.tideLines).toHaveLength(1);
  expect(await damageApart(...given)).toEqual(here);
});
