import type { Features } from "../vision/features.ts";
import type { MessagePort } from "node:worker_threads";
import { LastrinseError } from "../errors.ts";
import { type GreySheet, sheetImageOf } from "./greySheet.ts";
import { registerSheets, type RegisterOptions } from "./registerSheets.ts";
import type { Registration } from "./registration.ts";

export interface RegisterTask {
  /** Before, after. */
  readonly sheets: readonly [GreySheet, GreySheet];
  readonly features: readonly [Features, Features];
  readonly options: Omit<RegisterOptions, "onProgress">;
  /** Told the share of the work that is done. */
  readonly progress: MessagePort;
}

/** Errors lose their class between threads: what the user can mend travels as plain values. */
export type Registered =
  | { readonly registration: Registration }
  | { readonly refusal: Pick<LastrinseError, "code" | "message" | "remedy" | "input"> };

/** The worker's half of `registerApart`. */
export default async function register({
  sheets: [before, after],
  features,
  options,
  progress,
}: RegisterTask): Promise<Registered> {
  const onProgress = (share: number): void => {
    progress.postMessage(share);
  };
  try {
    const images = [sheetImageOf(before, features[0]), sheetImageOf(after, features[1])] as const;
    return { registration: await registerSheets(...images, { ...options, onProgress }) };
  } catch (error) {
    if (!(error instanceof LastrinseError)) throw error;
    const { code, message, remedy, input } = error;
    return { refusal: { code, message, remedy, input } };
  }
}
