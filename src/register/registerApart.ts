import { MessageChannel } from "node:worker_threads";
import { startThreads } from "../threads/startThreads.ts";
import type { Features } from "../vision/features.ts";
import type { GreySheet } from "./greySheet.ts";
import type { RegisterOptions } from "./registerSheets.ts";
import type * as work from "./registerWorker.ts";
import type { Registration } from "./registration.ts";

/** A frame, and its key points that are being sought. */
export interface SoughtSheet {
  readonly sheet: GreySheet;
  readonly features: Promise<Features>;
}

/**
 * `registerSheets` in a thread of its own: its many short steps don't wait for the caller's long ones, nor these for them.
 * @throws As `registerSheets` does.
 */
export async function registerApart(
  before: SoughtSheet,
  after: SoughtSheet,
  { onProgress, ...options }: RegisterOptions,
): Promise<Registration> {
  // The thread starts while the key points are still being sought.
  const threads = startThreads<typeof work>(import.meta.url, "registerWorker", {
    least: 1,
    most: 1,
  });
  const { port1, port2 } = new MessageChannel();
  port1.on("message", (share: number) => onProgress?.(share));
  try {
    const task: work.RegisterTask = {
      sheets: [before.sheet, after.sheet],
      features: [await before.features, await after.features],
      options,
      progress: port2,
    };
    return await threads.run("register", task, [port2]);
  } finally {
    port1.close();
    await threads.end();
  }
}
