/** What the vision workers can do, by name: each export takes one plain value and returns one plain value. */
export { detectFeatures } from "./detectFeatures.worker.ts";
export { findQuadrilaterals } from "./findQuadrilaterals.worker.ts";
