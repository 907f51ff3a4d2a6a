import { LARGEST_RISK } from "../largestRisk.ts";
import { deltaBeside, limitShare, shareBeside, shortest } from "../toldApart.ts";
import type { Limits } from "../../bath/evidence.ts";

/** What one more bath may cost an ink, the upper bound first. */
export interface InkRisk {
  readonly id: string;
  readonly risk: number;
  readonly upperDeltaE00: number;
  /** Its colour can change where it stands: only what dissolves is judged. */
  readonly hidden: boolean;
}

/** What shows of a hidden loss may be the small part of it: a low figure would be a comfort that nobody has. */
export function comforts({ hidden, risk }: InkRisk, allowed: number): boolean {
  return hidden && risk <= allowed;
}

/** "red: up to 3.9 dE00 with one more bath; your limit is 2. Risk of passing it: 24 % (accepted: 10 %)." */
export function riskText(one: InkRisk, { maxDeltaE00, risk: accepted }: Limits): string {
  const allowed = Math.min(accepted, LARGEST_RISK);
  const { id, risk, upperDeltaE00, hidden } = one;
  const told = comforts(one, allowed) ? "not measurable from the bath" : shareBeside(risk, allowed);
  const part = hidden ? ", as far as it dissolves" : "";
  return `${id}: up to ${deltaBeside(upperDeltaE00, maxDeltaE00)} dE00 with one more bath${part}; your limit is ${shortest(maxDeltaE00)}. Risk of passing it: ${told} (accepted: ${limitShare(allowed)}).`;
}
