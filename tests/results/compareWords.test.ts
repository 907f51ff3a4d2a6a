import { expect, test } from "vitest";
import { INK_WORDS, PAPER_WORDS } from "../../src/results/compareWords.ts";

test("each verdict has words of its own; only a loss is called one, and what is not shown is not called unchanged", () => {
  for (const words of [INK_WORDS, PAPER_WORDS]) {
    const all = Object.values(words);
    expect(new Set(all).size).toBe(all.length);
    expect(all.join(" ")).not.toMatch(/unchanged|safe|fine|no loss/);
    expect(words["no-change-shown"]).toMatch(/shown/);
    expect(words.uncertain).toMatch(/floor/);
  }
  expect(INK_WORDS["ink-lost"]).toBe("ink lost");
  expect(INK_WORDS.changed).toMatch(/not shown to be loss/);
  expect(PAPER_WORDS.darker).toMatch(/darker/);
  expect(PAPER_WORDS.lighter).toMatch(/lighter/);
});
