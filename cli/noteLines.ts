import type { Warning } from "../src/errors.ts";
import { plainLine } from "./plainText.ts";

/** Warnings for people, one line each. */
export function noteLines(warnings: readonly Warning[], indent = ""): string[] {
  return warnings.map(({ code, message }) => plainLine(`${indent}Note (${code}): ${message}`));
}
