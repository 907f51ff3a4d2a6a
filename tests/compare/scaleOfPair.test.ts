import { describe, expect, test } from "vitest";
import type { Card } from "../../src/card/card.ts";
import { cardNamed } from "../../src/card/cards.ts";
import { type ScaleSource, scaleOfPair } from "../../src/compare/scaleOfPair.ts";

const CARD: Card = { ...cardNamed("chart24-post2014")!, pitchMm: null };
const PITCHED: Card = { ...CARD, pitchMm: 10 };

/** A frame with the card at so many pixels a pitch. */
function source(dpi: number | null, pitch: number, more: Partial<ScaleSource> = {}): ScaleSource {
  const [right, bottom] = [5 * pitch, 3 * pitch];
  return {
    file: "scans/sheet.tif",
    widthPixels: 2480,
    heightPixels: 3508,
    dpi,
    placed: {
      corners: [
        [0, 0],
        [right, 0],
        [right, bottom],
        [0, bottom],
      ],
      centres: [],
      matchResidual: 1,
    },
    cardAlone: false,
    ...more,
  };
}

describe("pixels per inch of a pair", () => {
  test("what the files say goes before everything, also where they differ", () => {
    expect(scaleOfPair(source(300, 50), source(600, 50), PITCHED, true)).toEqual({
      before: 300,
      after: 600,
      warnings: [],
    });
  });

  test("from a card of known pitch: 118.11 pixels for 10 mm are 300 dpi; said in a note that names the file", () => {
    const { before, after, warnings } = scaleOfPair(
      source(null, 118.11),
      source(200, 78.74),
      PITCHED,
      true,
    );
    expect(before).toBeCloseTo(300, 2);
    expect(after).toBe(200);
    expect(warnings.map(({ code }) => code)).toEqual(["no-dpi"]);
    expect(warnings[0].message).toMatch(/^sheet\.tif .*300 dpi taken from the card/);
  });

  test("from the other scan and the size of the same card in both, either way", () => {
    expect(scaleOfPair(source(300, 60), source(null, 80), CARD, true).after).toBeCloseTo(400, 9);
    expect(scaleOfPair(source(null, 60), source(400, 80), CARD, true).before).toBeCloseTo(300, 9);
  });

  test("a card scanned alone says nothing of the sheet's scale", () => {
    const alone = { cardAlone: true };
    const { after } = scaleOfPair(source(300, 60), source(null, 80, alone), PITCHED, true);
    expect(after).toBe(300);
  });

  test("nothing known: the nearest usual setting for a frame of A4, warned of twice; refused under strict", () => {
    // 3508 pixels on 297 mm are 300.0 dpi; the after scan of the same card at 1.5 times the size.
    const guessed = scaleOfPair(source(null, 60), source(null, 90), CARD, false);
    expect([guessed.before, guessed.after]).toEqual([300, 450]);
    expect(guessed.warnings.map(({ message }) => message)).toEqual([
      expect.stringContaining("assumed from the size of the frame"),
      expect.stringContaining("assumed from the size of the frame"),
    ]);
    expect(() => scaleOfPair(source(null, 60), source(null, 90), CARD, true)).toThrow(
      expect.objectContaining({ code: "wrong-use", input: "scans/sheet.tif" }) as Error,
    );
  });
});
