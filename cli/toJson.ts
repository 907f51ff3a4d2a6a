import { z } from "zod";
import { RESULT_SCHEMAS, type ResultName } from "../src/results/resultSchemas.ts";
import { plainJson } from "./plainText.ts";

/** More digits than any figure here deserves, few enough to hide the last bits of binary arithmetic. */
const DIGITS = 9;

/**
 * One JSON object; numbers rounded, NaN as null, keys in their order: the same bytes on every machine. Characters that a
 * terminal would obey are escaped.
 * @throws {Error} A defect of the program: what would be printed is not what the schema of its name says.
 */
export function toJson(value: object): string {
  const text = JSON.stringify(value, (_key, part: unknown) =>
    typeof part === "number" && Number.isFinite(part) ? Number(part.toPrecision(DIGITS)) : part,
  );
  // Looked at as a reader will find it: an undefined field is gone by now, and NaN is null.
  checkForm(JSON.parse(text));
  return plainJson(text);
}

const named = z.object({
  schema: z
    .string()
    .regex(/^lastrinse\./)
    .transform((text) => text.slice("lastrinse.".length)),
});

function isResultName(name: string): name is ResultName {
  return Object.hasOwn(RESULT_SCHEMAS, name);
}

function checkForm(printed: unknown): void {
  const { schema: name } = named.parse(printed);
  if (!isResultName(name)) throw new Error(`there is no schema of the name ${name}`);
  const checked = RESULT_SCHEMAS[name].safeParse(printed);
  if (!checked.success)
    throw new Error(
      `the result does not fit its schema lastrinse.${name}: ${z.prettifyError(checked.error)}`,
      { cause: checked.error },
    );
}
