import type { MessagePort } from "node:worker_threads";
import { carrying } from "../threads/carrying.ts";
import type { Features } from "../vision/features.ts";
import { type GreySheet, sheetImageOf } from "./greySheet.ts";
import { registerSheets, type RegisterOptions } from "./registerSheets.ts";

export interface RegisterTask {
  /** Before, after. */
  readonly sheets: readonly [GreySheet, GreySheet];
  readonly features: readonly [Features, Features];
  readonly options: Omit<RegisterOptions, "onProgress">;
  /** Told the share of the work that is done. */
  readonly progress: MessagePort;
}

/** The worker's half of `registerApart`. */
export const register = carrying(
  ({ sheets: [before, after], features, options, progress }: RegisterTask) =>
    registerSheets(sheetImageOf(before, features[0]), sheetImageOf(after, features[1]), {
      ...options,
      onProgress(share) {
        progress.postMessage(share);
      },
    }),
);
