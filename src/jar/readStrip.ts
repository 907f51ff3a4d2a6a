import type { JarReading } from "./jarReading.ts";
import { dirname, resolve } from "node:path";
import { measureJarFiles } from "./measureJarFiles.ts";
import type { JarShape, Station } from "./place/station.ts";

/**
 * The bath in which a strip of unprinted paper of the same kind soaked, against its own blank.
 * @param evidenceFile The file that names both photos; their paths are absolute or relative to it.
 * @throws {LastrinseError} As `measureJarFiles`.
 */
export async function readStrip(
  { file, blank }: { readonly file: string; readonly blank: string },
  evidenceFile: string,
  geometry: Station | JarShape,
  card?: string,
): Promise<JarReading> {
  const folder = dirname(evidenceFile);
  const { readings } = await measureJarFiles({
    spent: [resolve(folder, file)],
    blank: resolve(folder, blank),
    geometry,
    card,
  });
  return readings[0];
}
