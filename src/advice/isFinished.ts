import type { Advice } from "./advice.ts";

/** Whether an advice speaks of a treatment that is over: then nothing is said of one more bath. */
export function isFinished({ reasons }: Advice): boolean {
  return reasons.some(({ code }) => code === "treatment-finished");
}
