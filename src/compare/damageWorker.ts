import { carrying } from "../threads/carrying.ts";
import { findDamage } from "./findDamage.ts";

/** The worker's half of `damageApart`. */
export const damage = carrying((given: Parameters<typeof findDamage>) => findDamage(...given));
