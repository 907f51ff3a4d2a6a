import { readFileSync } from "node:fs";

/** Version from package.json, which lies above both the source and the compiled tree. */
export function readVersion(): string {
  for (const place of ["../package.json", "../../package.json"]) {
    try {
      const found = JSON.parse(readFileSync(new URL(place, import.meta.url), "utf8")) as {
        readonly version: string;
      };
      return found.version;
    } catch {
      continue;
    }
  }
  return "unknown";
}
