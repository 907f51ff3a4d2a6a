const TOKEN = /[{}[\],:]|"(?:[^"\\]+|\\.)*"|[^\s{}[\],:"]+/g;

/** A list or an object that is open, and the place in it: index or key. */
interface Open {
  place: number | string;
}

/**
 * The line, from 1, at which an entry of a JSON text begins; where there is no such entry, that of the innermost list or object
 * that should hold it.
 * @param text Sound JSON.
 * @param path Keys and indices from the top.
 * @example jsonPathLine('{\n"a": [1,\n2]}', ["a", 1]) // 3
 */
export function jsonPathLine(text: string, path: readonly PropertyKey[]): number {
  const open: Open[] = [];
  let found = 0;
  let foundDepth = -1;
  let keyIsNext = false;
  for (const { 0: token, index } of text.matchAll(TOKEN)) {
    const inner = open.at(-1);
    if (token === "}" || token === "]") {
      open.pop();
      keyIsNext = false;
    } else if (token === ",") {
      if (typeof inner?.place === "number") inner.place++;
      else keyIsNext = true;
    } else if (token === ":") {
      keyIsNext = false;
    } else if (keyIsNext && inner !== undefined) {
      inner.place = JSON.parse(token) as string;
    } else {
      const leads = open.length <= path.length && open.every(({ place }, i) => place === path[i]);
      // Of two entries of one name the later one counts, as in JSON.parse.
      if (leads && open.length >= foundDepth) [found, foundDepth] = [index, open.length];
      if (token === "{" || token === "[") open.push({ place: token === "[" ? 0 : "" });
      keyIsNext = token === "{";
    }
  }
  return text.slice(0, found).split("\n").length;
}
