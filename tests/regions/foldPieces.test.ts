import { expect, test } from "vitest";
import { foldPieces } from "../../src/regions/foldPieces.ts";

const WIDTH = 8;

function fold(rows: readonly string[], leastCells: number, leastStranger = 1) {
  const labels = Uint8Array.from(rows.join(""), Number);
  const folded = foldPieces(labels, WIDTH, rows.length, leastCells, leastStranger);
  const text = (plane: Uint8Array): string[] =>
    rows.map((_, y) => Array.from(plane.subarray(y * WIDTH, (y + 1) * WIDTH)).join(""));
  return { labels: text(folded.labels), strangers: text(folded.strangers) };
}

test("a small piece takes the label with which it shares the longest border", () => {
  const { labels, strangers } = fold(
    [
      "11111222", //
      "11133222",
      "11133222",
      "11111222",
    ],
    5,
  );
  // The 2 x 2 piece of 3 borders 1 on six sides and 2 on two.
  expect(labels).toEqual(["11111222", "11111222", "11111222", "11111222"]);
  expect(strangers).toEqual(["00000000", "00011000", "00011000", "00000000"]);
});

test("small pieces inside small pieces are folded from the outside in; large ones stay", () => {
  const { labels } = fold(
    [
      "11111111", //
      "12222111",
      "12342155",
      "12222155",
      "11111155",
    ],
    6,
  );
  expect(labels).toEqual(["11111111", "12222111", "12222155", "12222155", "11111155"]);
});

test("label 0 is never filled, and a small island in it stays", () => {
  const { labels } = fold(
    [
      "11110000", //
      "11110200",
      "11130000",
      "11110000",
    ],
    4,
  );
  expect(labels).toEqual(["11110000", "11110200", "11110000", "11110000"]);
});

test("folded specks below the stranger size are noise", () => {
  const rows = ["11111111", "11211331", "11111331", "11111111"];
  expect(fold(rows, 5, 2).strangers).toEqual(["00000000", "00000110", "00000110", "00000000"]);
});
