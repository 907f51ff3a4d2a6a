import { measureTiles } from "./measureTiles.ts";
import { structureImage } from "./structureImage.ts";

/** What the workers of a registration do, by name: each takes one plain value and returns one. */

export function structure([picture, excluded, radiusMm]: Parameters<typeof structureImage>) {
  return structureImage(picture, excluded, radiusMm);
}

export function measure([before, after, map, active, pass]: Parameters<typeof measureTiles>) {
  return measureTiles(before, after, map, active, pass);
}
