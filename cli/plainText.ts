/**
 * Characters that a terminal, or a reader of a table, takes as an order instead of a sign: control characters of both
 * ranges but tab and line feed (a carriage return only where no line feed follows), the overrides, embeddings and isolates
 * of the bidirectional algorithm (Unicode Standard Annex 9), and the two separators of lines and paragraphs.
 */
const ORDERS =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u2028\u2029]|\r(?!\n)/g;

function visible(character: string): string {
  const code = character.charCodeAt(0).toString(16);
  return code.length <= 2 ? `\\x${code.padStart(2, "0")}` : `\\u${code.padStart(4, "0")}`;
}

/**
 * Text for people in which nothing can move the cursor, change a colour or turn the reading direction: file names, titles and
 * notes come from anywhere. What could is shown as an escape such as `\x1b`; all other text, in any script, stays as it is.
 */
export function plainText(text: string): string {
  return text.replace(ORDERS, visible);
}

/** The same for what must stay one line: a line break in a file name can't fake a line of the result. */
export function plainLine(text: string): string {
  return plainText(text.replaceAll(/\r?\n/g, "\\n"));
}

/**
 * JSON with the same characters escaped inside its strings: it parses to exactly the same value, and can be looked at.
 * @param json JSON without line breaks between its parts.
 */
export function plainJson(json: string): string {
  return json.replace(
    ORDERS,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}
