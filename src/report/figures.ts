/** Figures as people read them: fixed digits, a true minus sign, words where there is no figure. */

export const NOT_MEASURED = "not measured";

/** A figure with fixed digits; null is "not measured", never zero. */
export function figure(value: number | null | undefined, digits = 2): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return NOT_MEASURED;
  const text = value.toFixed(digits);
  // "-0.00" is no change of sign.
  return Number(text) === 0 ? (0).toFixed(digits) : text.replace("-", "\u2212");
}

/** The same with its sign always shown, for changes. */
export function signed(value: number | null | undefined, digits = 2): string {
  const text = figure(value, digits);
  return value !== null && value !== undefined && value > 0 && Number(text) !== 0
    ? `+${text}`
    : text;
}

/** "0.31 to 1.20"; empty where an end is missing. */
export function between(low: number | null, high: number | null, digits = 2): string {
  return low === null || high === null ? "" : `${figure(low, digits)} to ${figure(high, digits)}`;
}

/** "1.42 (0.90 to 1.95)". */
export function withRange(
  value: number | null,
  low: number | null,
  high: number | null,
  digits = 2,
): string {
  const range = between(low, high, digits);
  return value === null || range === ""
    ? figure(value, digits)
    : `${figure(value, digits)} (${range})`;
}

/** A share as whole per cent. */
export function percent(share: number | null): string {
  return share === null ? NOT_MEASURED : `${figure(100 * share, 0)}\u00a0%`;
}

/** "35 to 60 %". */
export function percentRange([low, high]: readonly [number, number]): string {
  return `${figure(100 * low, 0)} to ${figure(100 * high, 0)}\u00a0%`;
}

/** The file's own name, without folders. */
export function nameOf(file: string): string {
  return file.split(/[\\/]/).at(-1) ?? file;
}

/** "red, blue and yellow". */
export { listOf } from "../bath/shareText.ts";
