import { drawCoverPair } from "./drawCoverPair.ts";
import { drawJarSamples } from "./jar/draw.ts";

/** Draws all sample images anew, from their seeds: `npm run samples`. */
const here = import.meta.dirname;
for (const name of await drawCoverPair(here)) console.log(`wrote ${name}`);
for (const name of await drawJarSamples(here)) console.log(`wrote ${name}`);
