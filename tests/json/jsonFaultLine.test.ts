import { expect, test } from "vitest";
import { jsonFaultLine } from "../../src/json/jsonFaultLine.ts";

test.each([
  ["a surplus comma before a bracket", '{\n"a": [1,\n2,\n]\n}', 4],
  ["a surplus comma before a brace", '{\n"a": 1,\n}', 3],
  ["a missing comma", '{\n"a": 1\n"b": 2\n}', 3],
  ["a decimal comma", '{"a": [\n1.5, 2],\n"b": 1,5}', 3],
  ["a missing colon", '{\n"a"\n1}', 3],
  ["single quotes", "{\n'a': 1}", 2],
  ["typographic quotes", "{\n“a”: 1}", 2],
  ["an open string", '{\n"a": "red\n}', 2],
  ["a comment", '{\n"a": 1 // one\n}', 2],
  ["a wrong bracket", '{\n"a": [1, 2}\n}', 2],
  ["a word", '{\n\n"a": yes}', 3],
  ["a second value", '{"a": 1}\n\n{"b": 2}', 3],
  ["an early end", '{\n"a": [\n', 3],
  ["nothing", "", 1],
])("%s", (_, text, line) => {
  expect(() => {
    JSON.parse(text);
  }).toThrow(SyntaxError);
  expect(jsonFaultLine(text)).toBe(line);
});

test("passes over everything that JSON knows", () => {
  const text = JSON.stringify(
    { a: [1, -2.5e-7, true, null, [], {}], 'q"\\\u0007é': "\n" },
    null,
    2,
  );
  expect(jsonFaultLine(`${text}\n]`)).toBe(text.split("\n").length + 1);
});
