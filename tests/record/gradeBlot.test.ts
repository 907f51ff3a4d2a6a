import { describe, expect, test } from "vitest";
import { gradeBlot } from "../../src/record/gradeBlot.ts";
import type { Settings } from "../../src/record/event.ts";
import { input, memoryRecord, newEvent, TESTED } from "../support/memoryRecord.ts";

type Word = Settings<"blot">["result"];

const graded = (word: Word, photo: Word | "refused" | "none") => {
  const blot = newEvent(
    "blot",
    { ...TESTED, result: word },
    photo === "none" ? [] : [input("photo", "none.jpg")],
  );
  const kept =
    photo === "refused"
      ? { reading: null, refused: { code: "spots-not-found", message: "no spot", remedy: "again" } }
      : { reading: { verdict: photo }, refused: null };
  const record = memoryRecord([blot], { "000002-blot": kept });
  return gradeBlot(record, record.treatment.blots[0]);
};

describe("the result of a blotter test", () => {
  test.each<[Word, Word | "refused" | "none", Word]>([
    ["fast", "none", "fast"],
    [null, "none", null],
    [null, "doubtful", "doubtful"],
    // The worse of word and photo counts, whichever it is.
    ["fast", "bleeds", "bleeds"],
    ["bleeds", "fast", "bleeds"],
    ["doubtful", "fast", "doubtful"],
    ["fast", "fast", "fast"],
    ["fast", "refused", "fast"],
    [null, "refused", null],
  ])("word %s, photo %s: %s", async (word, photo, result) => {
    const answer = await graded(word, photo);
    expect(answer.result).toBe(result);
    expect(answer.refused === null).toBe(photo !== "refused");
  });

  test.each<[Settings<"blot">["result"], string | null]>([
    ["fast", "untested"],
    ["doubtful", "untested"],
    ["bleeds", "bleeds"],
    [null, null],
  ])("word %s, and its photo is gone: %s, for it may have shown worse", async (word, expected) => {
    const settings = { ...TESTED, result: word };
    const record = memoryRecord([newEvent("blot", settings, [input("photo", "none.jpg")])]);
    const { result, refused } = await gradeBlot(record, record.treatment.blots[0]);
    expect([result, refused?.code]).toEqual([expected, "unreadable"]);
  });
});
