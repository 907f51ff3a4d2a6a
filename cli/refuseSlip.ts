import { type Condition, conditionSlip } from "../src/bath/conditionSlip.ts";
import { LastrinseError } from "../src/errors.ts";

/**
 * Refuses a condition that no bath can have.
 * @param option Where it was given, for the message.
 * @param wetSheetMl Default: that of a usual cover.
 * @throws {LastrinseError} `wrong-use`, with what was probably meant.
 */
export function refuseSlip(
  condition: Condition,
  value: number | null | undefined,
  option: string,
  wetSheetMl?: number,
): void {
  const slip = typeof value === "number" ? conditionSlip(condition, value, wetSheetMl) : null;
  if (slip === null) return;
  throw new LastrinseError("wrong-use", `For ${option}: ${slip}`, {
    remedy: "Give the command again with the value that was meant; nothing was recorded.",
    input: option,
  });
}
