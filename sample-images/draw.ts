import { drawCoverPair } from "./drawCoverPair.ts";

/** Draws all sample images anew, from their seeds: `npm run samples`. */
const here = import.meta.dirname;
for (const name of await drawCoverPair(here)) console.log(`wrote ${name}`);
