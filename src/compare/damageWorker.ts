import { findDamage } from "./findDamage.ts";

/** The worker's half of `damageApart`. */
export default function damage(given: Parameters<typeof findDamage>) {
  return findDamage(...given);
}
