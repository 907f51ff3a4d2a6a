import { Tinypool } from "tinypool";
import type * as workerExports from "./worker.ts";

type Work = typeof workerExports;

/** Workers are always started from the compiled tree, also when the source runs under a TypeScript loader. */
const WORKER_URL = import.meta.url.endsWith(".ts")
  ? new URL("../../dist/src/vision/worker.js", import.meta.url)
  : new URL("./worker.js", import.meta.url);

/** Each worker holds a wasm heap of 128 MiB to 1 GiB. */
const MOST_WORKERS = 2;

let pool: Tinypool | undefined;

function startPool(workers = MOST_WORKERS): Tinypool {
  return new Tinypool({
    filename: WORKER_URL.href,
    runtime: "worker_threads",
    minThreads: 0,
    maxThreads: workers,
    idleTimeout: 2000,
    concurrentTasksPerWorker: 1,
  });
}

/**
 * Starts the workers ahead of their first task, which would wait for them half a second.
 * @param workers How many at most; where some run already, they stay as they are. Default MOST_WORKERS.
 */
export function startVision(workers: number = MOST_WORKERS): void {
  pool ??= startPool(workers);
  for (let k = 0; k < workers; k++) callVision("ready", undefined).catch(() => undefined);
}

/** Runs one function of `worker.ts` in a worker. Results do not depend on the number of workers. */
export async function callVision<Name extends keyof Work>(
  name: Name,
  argument: Parameters<Work[Name]>[0],
): Promise<ReturnType<Work[Name]>> {
  pool ??= startPool();
  return (await pool.run(argument, { name })) as ReturnType<Work[Name]>;
}

/** Ends the workers and gives their memory back. The next call starts new ones. */
export async function closeVision(): Promise<void> {
  const ending = pool;
  pool = undefined;
  await ending?.destroy();
}
