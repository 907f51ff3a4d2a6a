import type { CompareResult } from "../results/compareResult.ts";
import { sharp } from "../raster/sharp.ts";
import { outlinePicture } from "../picture/outlinePicture.ts";

/** Pictures as PNG bytes, at most 150 dpi, all on the lattice of the before scan. */
export interface ComparePictures {
  readonly before: Uint8Array;
  readonly after: Uint8Array;
  readonly difference: Uint8Array;
  /** Map of the ink part; null without a measured paper. */
  readonly inkPart: Uint8Array | null;
  /** 8-bit labels of the inks. */
  readonly inks: Uint8Array;
}

/** Pictures of one comparison as they stand in a page. */
export interface PagePictures {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Data addresses. */
  readonly before: string;
  readonly after: string;
  readonly difference: string;
  /** null without a measured paper. */
  readonly inkPart: string | null;
  readonly outlines: readonly {
    readonly ink: string;
    readonly label: number;
    readonly uri: string;
  }[];
}

/** All pictures of a page together, as text: leaves a megabyte of the 8 for everything else. */
export const PICTURE_BUDGET = 7_000_000;
/** Long sides that are tried, largest first, until all pictures fit. */
const LONG_SIDES = [1400, 1100, 850, 650, 500, 380] as const;
/** An outline needs no more. */
const OUTLINE_SIDE = 700;
/** Fine detail of print survives; 4:4:4 so that coloured edges do. */
const QUALITY = 85;

export function dataUri(type: "png" | "jpeg", bytes: Uint8Array): string {
  return `data:image/${type};base64,${Buffer.from(bytes).toString("base64")}`;
}

/** A photo or scan for the page: never enlarged. */
export async function photoUri(picture: Uint8Array, longSide: number): Promise<string> {
  const jpeg = await sharp(picture)
    .resize({ width: longSide, height: longSide, fit: "inside", withoutEnlargement: true })
    .removeAlpha()
    .jpeg({ quality: QUALITY, chromaSubsampling: "4:4:4" })
    .toBuffer();
  return dataUri("jpeg", jpeg);
}

/** A map for the page: its colours mean figures, so cells are picked, never mixed. */
async function mapUri(picture: Uint8Array, longSide: number): Promise<string> {
  const png = await sharp(picture)
    .resize({
      width: longSide,
      height: longSide,
      fit: "inside",
      withoutEnlargement: true,
      kernel: "nearest",
    })
    .png({ compressionLevel: 9, palette: false })
    .toBuffer();
  return dataUri("png", png);
}

async function outlinesOf(result: CompareResult, picture: Uint8Array) {
  const { data, info } = await sharp(picture)
    .extractChannel(0)
    .resize({
      width: OUTLINE_SIDE,
      height: OUTLINE_SIDE,
      fit: "inside",
      withoutEnlargement: true,
      kernel: "nearest",
    })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return Promise.all(
    result.inks.map(async ({ id, label }) => {
      const png = await outlinePicture(data, info.width, info.height, label);
      return { ink: id, label, uri: dataUri("png", png) };
    }),
  );
}

async function atSide(
  { before, after, difference, inkPart }: ComparePictures,
  longSide: number,
): Promise<Omit<PagePictures, "outlines" | "widthPixels" | "heightPixels">> {
  const uris = await Promise.all([
    photoUri(before, longSide),
    photoUri(after, longSide),
    mapUri(difference, longSide),
    inkPart === null ? null : mapUri(inkPart, longSide),
  ]);
  return { before: uris[0], after: uris[1], difference: uris[2], inkPart: uris[3] };
}

/**
 * Pictures of all comparisons of a page, reduced alike until they fit.
 * @param budget Characters of all pictures together.
 */
export async function pagePictures(
  compared: readonly { readonly result: CompareResult; readonly pictures: ComparePictures }[],
  budget: number = PICTURE_BUDGET,
): Promise<PagePictures[]> {
  const [outlines, sizes] = await Promise.all([
    Promise.all(compared.map(({ result, pictures }) => outlinesOf(result, pictures.inks))),
    Promise.all(compared.map(({ pictures }) => sharp(pictures.before).metadata())),
  ]);
  const outlineSize = outlines.flat().reduce((sum, { uri }) => sum + uri.length, 0);
  for (const longSide of LONG_SIDES) {
    const drawn = await Promise.all(compared.map(({ pictures }) => atSide(pictures, longSide)));
    const size = drawn.reduce(
      (sum, { before, after, difference, inkPart }) =>
        sum + before.length + after.length + difference.length + (inkPart?.length ?? 0),
      outlineSize,
    );
    if (size > budget && longSide !== LONG_SIDES.at(-1)) continue;
    return drawn.map((uris, i) => ({
      ...uris,
      widthPixels: sizes[i].width,
      heightPixels: sizes[i].height,
      outlines: outlines[i],
    }));
  }
  return [];
}
