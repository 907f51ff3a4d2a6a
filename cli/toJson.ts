import { plainJson } from "./plainText.ts";

/** More digits than any figure here deserves, few enough to hide the last bits of binary arithmetic. */
const DIGITS = 9;

/**
 * One JSON object; numbers rounded, NaN as null, keys in their order: the same bytes on every machine. Characters that a
 * terminal would obey are escaped.
 */
export function toJson(value: object): string {
  return plainJson(
    JSON.stringify(value, (_key, part: unknown) =>
      typeof part === "number" && Number.isFinite(part) ? Number(part.toPrecision(DIGITS)) : part,
    ),
  );
}
