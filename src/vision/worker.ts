import { carrying } from "../threads/carrying.ts";
import * as features from "./detectFeatures.worker.ts";
import * as quadrilaterals from "./findQuadrilaterals.worker.ts";

/** What the vision workers can do, by name: each export takes one plain value and returns one plain value. */
export const detectFeatures = carrying(features.detectFeatures);
export const findQuadrilaterals = carrying(quadrilaterals.findQuadrilaterals);

/** Answers once the worker and its library are loaded. */
export const ready = carrying<undefined, void>(() => undefined);
