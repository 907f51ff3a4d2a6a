import sharp from "sharp";

// Operations are never repeated on the same input here; the cache would only hold memory and open files.
sharp.cache(false);

/** The image library, set up once. */
export { sharp };
