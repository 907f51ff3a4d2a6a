import type { PlateCells } from "../plates/plateCells.ts";
import { separatePlates, type SeparationOptions } from "../plates/separatePlates.ts";
import { carrying } from "../threads/carrying.ts";

/** The worker's half of `platesOfPair`. */
export const plates = carrying((given: { cells: PlateCells; options: SeparationOptions }) =>
  separatePlates(given.cells, given.options),
);
