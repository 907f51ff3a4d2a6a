import { startThreads, type Threads } from "../threads/startThreads.ts";
import type * as workerExports from "./worker.ts";

type Work = typeof workerExports;

/** Each worker holds a wasm heap of 128 MiB to 1 GiB. */
const MOST_WORKERS = 2;

let threads: Threads<Work> | undefined;

const start = (most = MOST_WORKERS): Threads<Work> =>
  startThreads<Work>(import.meta.url, "worker", { most, idleMs: 2000 });

/**
 * Starts the workers ahead of their first task, which would wait for them half a second.
 * @param workers How many at most; where some run already, they stay as they are. Default MOST_WORKERS.
 */
export function startVision(workers: number = MOST_WORKERS): void {
  threads ??= start(workers);
  for (let k = 0; k < workers; k++) callVision("ready", undefined).catch(() => undefined);
}

/** Runs one function of `worker.ts` in a worker. Results do not depend on the number of workers. */
export const callVision: Threads<Work>["run"] = (name, argument) => {
  threads ??= start();
  return threads.run(name, argument);
};

/** Ends the workers and gives their memory back. The next call starts new ones. */
export async function closeVision(): Promise<void> {
  const ending = threads;
  threads = undefined;
  await ending?.end();
}
