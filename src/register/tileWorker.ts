import { carrying } from "../threads/carrying.ts";
import { measureTiles } from "./measureTiles.ts";
import { structureImage } from "./structureImage.ts";

/** What the threads of a registration do, by name. */

export const structure = carrying((given: Parameters<typeof structureImage>) =>
  structureImage(...given),
);

export const measure = carrying((given: Parameters<typeof measureTiles>) => measureTiles(...given));
