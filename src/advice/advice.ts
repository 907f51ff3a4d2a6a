export type { Advice, Reason, SheetNow, Verdict } from "../results/advice.ts";
