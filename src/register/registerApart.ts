import type { Features } from "../vision/features.ts";
import { MessageChannel } from "node:worker_threads";
import { Tinypool } from "tinypool";
import { LastrinseError } from "../errors.ts";
import type { GreySheet } from "./greySheet.ts";
import type { RegisterOptions } from "./registerSheets.ts";
import type { Registered, RegisterTask } from "./registerWorker.ts";
import type { Registration } from "./registration.ts";

/** Workers are always started from the compiled tree, also when the source runs under a TypeScript loader. */
const WORKER_URL = import.meta.url.endsWith(".ts")
  ? new URL("../../dist/src/register/registerWorker.js", import.meta.url)
  : new URL("./registerWorker.js", import.meta.url);

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
  const pool = new Tinypool({
    filename: WORKER_URL.href,
    runtime: "worker_threads",
    minThreads: 1,
    maxThreads: 1,
  });
  const { port1, port2 } = new MessageChannel();
  port1.on("message", (share: number) => onProgress?.(share));
  try {
    const task: RegisterTask = {
      sheets: [before.sheet, after.sheet],
      features: [await before.features, await after.features],
      options,
      progress: port2,
    };
    const registered = (await pool.run(task, { transferList: [port2] })) as Registered;
    if ("registration" in registered) return registered.registration;
    const { code, message, remedy, input } = registered.refusal;
    throw new LastrinseError(code, message, { remedy, input: input ?? undefined });
  } finally {
    port1.close();
    await pool.destroy();
  }
}
