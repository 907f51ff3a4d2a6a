/** sRGB bytes. */
export type Rgb = readonly [number, number, number];

/** The colour as CSS. */
export function cssOf([r, g, b]: Rgb): string {
  return `rgb(${String(r)} ${String(g)} ${String(b)})`;
}
