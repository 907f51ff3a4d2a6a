import type { Blot } from "../bath/palette.ts";
import { inkStatus } from "./inkStatus.ts";
import type { BlotTest, Liquid } from "./treatmentState.ts";

/**
 * What the blotter tests of an ink say of one bath: only a test made before it, in a liquid as strong, bounds what it took, and
 * not where the ink did worse in a later test.
 * @param order Place of the bath in the course of the treatment.
 */
export function blotFor(tests: readonly BlotTest[], liquid: Liquid, order: number): Blot {
  const earlier = tests.filter((test) => test.order < order);
  const { state } = inkStatus({ tests: earlier, bleeding: [], contradicted: false }, liquid);
  const last = [...tests].sort((a, b) => b.order - a.order).at(0)?.result ?? "untested";
  if (state === "bleeding") return "bleeds";
  return state === "fast" && last !== "untested" ? last : state;
}
