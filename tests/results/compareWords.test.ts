import { expect, test } from "vitest";
import { INK_WORDS, inkWords, PAPER_WORDS } from "../../src/results/compareWords.ts";

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

test("an ink of which little is measured says so beside its verdict", () => {
  expect(inkWords({ verdict: "ink-lost", measuredShare: 0.5 })).toBe("ink lost");
  expect(inkWords({ verdict: "ink-lost" })).toBe("ink lost");
  expect(inkWords({ verdict: "changed", measuredShare: 0.37 })).toBe(
    "changed, not shown to be loss of ink; measured on 37 % of its area",
  );
  // Never "0 %" of something that has figures.
  expect(inkWords({ verdict: "changed", measuredShare: 0.002 })).toContain("on 1 %");
  expect(inkWords({ verdict: "uncertain", measuredShare: 0 })).toContain("none of its area");
});
