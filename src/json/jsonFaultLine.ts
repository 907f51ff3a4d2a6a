/** One token after white space: a mark, a string, or a number or word. */
const TOKEN =
  /\s*(?:([{}[\],:])|("(?:[^"\\\p{Cc}]|\\(?:["\\/bfnrt]|u[\da-fA-F]{4}))*")|(-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null))/uy;

type Expected = "value" | "value or ]" | "key" | "key or }" | ":" | ", or end" | "nothing";

/**
 * The line, from 1, at which a text stops being JSON: the messages of the run-time differ from version to version, and some
 * name no place.
 * @param text JSON with a fault; for sound JSON the number of the last line.
 */
export function jsonFaultLine(text: string): number {
  const open: string[] = [];
  let expected: Expected = "value";
  const after = (): Expected => (open.length === 0 ? "nothing" : ", or end");
  const take = (mark: string | undefined, isString: boolean): boolean => {
    const closes = mark === "}" ? "{" : mark === "]" ? "[" : undefined;
    if (closes !== undefined) {
      const mayClose =
        expected === ", or end" || expected === (mark === "}" ? "key or }" : "value or ]");
      if (!mayClose || open.pop() !== closes) return false;
      expected = after();
      return true;
    }
    switch (expected) {
      case "value":
      case "value or ]":
        if (mark === ":" || mark === ",") return false;
        if (mark !== undefined) open.push(mark);
        expected = mark === undefined ? after() : mark === "{" ? "key or }" : "value or ]";
        return true;
      case "key":
      case "key or }":
        expected = ":";
        return isString;
      case ":":
        expected = "value";
        return mark === ":";
      case ", or end":
        expected = open[open.length - 1] === "{" ? "key" : "value";
        return mark === ",";
      case "nothing":
        return false;
    }
  };
  let place = 0;
  for (;;) {
    TOKEN.lastIndex = place;
    const found = TOKEN.exec(text);
    if (found === null || !take(found[1], found[2] !== undefined)) break;
    place = TOKEN.lastIndex;
  }
  const fault = place + (/^\s*/.exec(text.slice(place))?.[0].length ?? 0);
  return text.slice(0, fault).split("\n").length;
}
