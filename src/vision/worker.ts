/** What the vision workers can do, by name: each export takes one plain value and returns one plain value. */
export { detectFeatures } from "./detectFeatures.worker.ts";
export { findQuadrilaterals } from "./findQuadrilaterals.worker.ts";

/** Answers once the worker and its library are loaded. */
export function ready(): void {
  return;
}
