import type { DamageReport } from "../results/compareResult.ts";
import { startThreads } from "../threads/startThreads.ts";
import type * as work from "./damageWorker.ts";
import type { findDamage } from "./findDamage.ts";

/** `findDamage` in a thread of its own, so that the pictures are drawn meanwhile. The planes of the view are shared. */
export async function damageApart(...given: Parameters<typeof findDamage>): Promise<DamageReport> {
  const threads = startThreads<typeof work>(import.meta.url, "damageWorker", { most: 1 });
  try {
    return await threads.run("damage", given);
  } finally {
    await threads.end();
  }
}
