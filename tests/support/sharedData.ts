import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const ROOT = new URL("../../../shared/data/", import.meta.url);

/**
 * Path of a file of the published check data that lies beside the project, in `shared/data`.
 * @param name Relative to that folder, like `colour/chart24-1976.json`.
 */
export function sharedData(name: string): string {
  return fileURLToPath(new URL(name, ROOT));
}

/** Whether that file is there; tests that need it are skipped where it is not. */
export function sharedDataAvailable(name: string): boolean {
  return existsSync(sharedData(name));
}
