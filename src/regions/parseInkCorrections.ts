import { LastrinseError } from "../errors.ts";
import type { InkCorrections } from "./inkCorrections.ts";
import { jsonFaultLine } from "../json/jsonFaultLine.ts";
import { inkCorrectionsSchema } from "./inkCorrections.ts";

const REMEDY =
  'Write it as {"schema":"lastrinse.inks","version":1,"corrections":[{"action":"rename","ink":"red","to":"title red"}]}; ' +
  "actions are rename, merge, split, exclude and kind.";

/**
 * Reads the user's corrections of the ink regions.
 * @param text The file's text: JSON after the schema `lastrinse.inks`, version 1.
 * @param fileName For messages.
 * @throws {LastrinseError} `bad-json`, naming the line where the text is no JSON, or the path of each wrong entry.
 */
export function parseInkCorrections(text: string, fileName: string): InkCorrections {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (cause) {
    throw new LastrinseError(
      "bad-json",
      `Expected JSON in the ink corrections ${fileName}, received text that is none in line ${jsonFaultLine(text)}.`,
      {
        remedy: `Look there, and at the end of the line before, for a missing or surplus comma, quote or bracket. ${REMEDY}`,
        input: fileName,
        cause,
      },
    );
  }
  const parsed = inkCorrectionsSchema.safeParse(value);
  if (parsed.success) return { file: fileName, steps: parsed.data.corrections };
  const problems = parsed.error.issues.map(({ path, message }) => `${pathText(path)}: ${message}`);
  throw new LastrinseError(
    "bad-json",
    `Expected ink corrections in ${fileName}, received ${problems.join("; ")}.`,
    { remedy: `Mend ${pathText(parsed.error.issues[0].path)}. ${REMEDY}`, input: fileName },
  );
}

/** corrections[2].to */
function pathText(path: readonly PropertyKey[]): string {
  const text = path
    .map((part) => (typeof part === "number" ? `[${part}]` : `.${String(part)}`))
    .join("")
    .replace(/^\./, "");
  return text === "" ? "the file's top level" : text;
}
