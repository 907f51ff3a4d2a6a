import { readTurbiditySeries } from "../jar/readTurbiditySeries.ts";

/** Role of a photo that a bath's turbidity series names. */
export const TURBIDITY_PHOTO = "turbidity-photo";

/**
 * The photos of a turbidity series, the blank among them, each once: inputs of a bath like the series itself.
 * @throws {LastrinseError} `unreadable`, `bad-json`.
 */
export async function turbidityPhotos(series: string): Promise<readonly string[]> {
  const { points, blank } = await readTurbiditySeries(series);
  return [...new Set([...(blank === null ? [] : [blank]), ...points.map(({ file }) => file)])];
}
