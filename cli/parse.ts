import { InvalidArgumentError } from "commander";
import type { Condition } from "../src/bath/conditionSlip.ts";
import { refuseSlip } from "./refuseSlip.ts";

/** A finite number in a range, for commander. */
export function numberBetween(low: number, high: number): (text: string) => number {
  return (text) => {
    const value = text.trim() === "" ? NaN : Number(text);
    if (Number.isFinite(value) && value >= low && value <= high) return value;
    throw new InvalidArgumentError(
      `Expected a number from ${String(low)} to ${String(high)} with a decimal point.`,
    );
  };
}

/**
 * A condition of a bath or of the liquid of a test, for commander; slips of the pen are told what was probably meant.
 * @param option Named in the refusal.
 */
export function statedCondition(condition: Condition, option: string): (text: string) => number {
  return (text) => {
    const value = text.trim() === "" ? NaN : Number(text);
    if (!Number.isFinite(value)) {
      const point = text.trim().replace(/^([+-]?\d+),(\d+)$/, "$1.$2");
      throw new InvalidArgumentError(
        `Expected a number with a decimal point${point === text.trim() ? "." : `: did you mean ${point}?`}`,
      );
    }
    refuseSlip(condition, value, option);
    return value;
  };
}

/** A whole number in a range, for commander. */
export function wholeNumberBetween(low: number, high: number): (text: string) => number {
  const parse = numberBetween(low, high);
  return (text) => {
    const value = parse(text);
    if (Number.isInteger(value)) return value;
    throw new InvalidArgumentError("Expected a whole number.");
  };
}

/** One of some words, for commander. */
export function oneOf<Word extends string>(...words: readonly Word[]): (text: string) => Word {
  return (text) => {
    const found = words.find((word) => word === text);
    if (found !== undefined) return found;
    throw new InvalidArgumentError(`Expected one of: ${words.join(", ")}.`);
  };
}
