import { Tinypool } from "tinypool";
import type { findDamage } from "./findDamage.ts";
import type { DamageReport } from "../results/compareResult.ts";

/** Workers are always started from the compiled tree, also when the source runs under a TypeScript loader. */
const WORKER_URL = import.meta.url.endsWith(".ts")
  ? new URL("../../dist/src/compare/damageWorker.js", import.meta.url)
  : new URL("./damageWorker.js", import.meta.url);

/** `findDamage` in a thread of its own, so that the pictures are drawn meanwhile. The planes of the view are shared. */
export async function damageApart(...given: Parameters<typeof findDamage>): Promise<DamageReport> {
  const pool = new Tinypool({
    filename: WORKER_URL.href,
    runtime: "worker_threads",
    maxThreads: 1,
  });
  try {
    return (await pool.run(given)) as DamageReport;
  } finally {
    await pool.destroy();
  }
}
