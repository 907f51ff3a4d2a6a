import { listOf } from "../../bath/shareText.ts";
import type { Reason } from "../advice.ts";
import type { BathState } from "../treatmentState.ts";
import { reason } from "./findings.ts";

/** The line that adds a missing condition: to an event of the record, or to the evidence file. */
export function lineThatAdds(
  { event }: BathState,
  number: number,
  settings: string,
  example: string,
): string {
  return event === null
    ? `"${settings}" of bath ${String(number)} in the evidence file`
    : `lastrinse amend RECORD ${event} --set ${settings}=${example}`;
}

/** Baths whose volume nobody stated: nothing can be said of amounts. null where all did. */
export function volumeUnknown(baths: readonly BathState[]): Reason | null {
  const without = baths.flatMap((bath, i) =>
    bath.volumeMl === null ? [{ bath, number: i + 1 }] : [],
  );
  if (without.length === 0) return null;
  const numbers = listOf(without.map(({ number }) => String(number)));
  const lines = without.map(({ bath, number }) => lineThatAdds(bath, number, "volumeMl", "ML"));
  return reason(
    "volume-unknown",
    `The volume of ${without.length === 1 ? "bath" : "baths"} ${numbers} is not stated, so what left the sheet can't be weighed: no fade, no risk. Add it: ${lines.join("; ")}`,
  );
}
