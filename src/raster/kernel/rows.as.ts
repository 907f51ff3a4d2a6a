/*
 * Sums over rows of full pixels, the innermost work of reducing a scan: AssemblyScript, which `npm run kernel` compiles into
 * `rowsBytes.ts`.
 *
 * The host lays out the memory: rows of interleaved R G B, tables, and sums in double precision. Additions keep the order of the
 * program's own loops, so that both give the same bits.
 */

/**
 * Adds a row of pixels to a row of cells, each `pixels` wide: R, G and B through three tables that follow each other, into three
 * rows of sums that follow each other.
 */
function addCodes<Code>(
  data: usize,
  tables: usize,
  codes: usize,
  sums: usize,
  cells: usize,
  pixels: usize,
): void {
  const green = tables + (codes << 3);
  const blue = green + (codes << 3);
  const row = cells << 3;
  let at = data;
  for (let sum = sums, end = sums + row; sum < end; sum += 8) {
    let r: f64 = 0;
    let g: f64 = 0;
    let b: f64 = 0;
    for (const stop = at + 3 * pixels * sizeof<Code>(); at < stop; at += 3 * sizeof<Code>()) {
      r += load<f64>(tables + ((<usize>load<Code>(at)) << 3));
      g += load<f64>(green + ((<usize>load<Code>(at + sizeof<Code>())) << 3));
      b += load<f64>(blue + ((<usize>load<Code>(at + 2 * sizeof<Code>())) << 3));
    }
    store<f64>(sum, load<f64>(sum) + r);
    store<f64>(sum + row, load<f64>(sum + row) + g);
    store<f64>(sum + 2 * row, load<f64>(sum + 2 * row) + b);
  }
}

export function addCells(
  bits: i32,
  data: usize,
  tables: usize,
  sums: usize,
  cells: usize,
  pixels: usize,
): void {
  if (bits === 8) addCodes<u8>(data, tables, 256, sums, cells, pixels);
  else addCodes<u16>(data, tables, 65536, sums, cells, pixels);
}

/** Adds a row of pixels to a row of cells, each `pixels` wide: shares of R, G and B. */
function addShares<Code>(
  data: usize,
  sums: usize,
  cells: usize,
  pixels: usize,
  r: f64,
  g: f64,
  b: f64,
): void {
  let at = data;
  for (let sum = sums, end = sums + (cells << 3); sum < end; sum += 8) {
    let grey: f64 = 0;
    for (const stop = at + 3 * pixels * sizeof<Code>(); at < stop; at += 3 * sizeof<Code>())
      grey +=
        r * <f64>load<Code>(at) +
        g * <f64>load<Code>(at + sizeof<Code>()) +
        b * <f64>load<Code>(at + 2 * sizeof<Code>());
    store<f64>(sum, load<f64>(sum) + grey);
  }
}

export function addGrey(
  bits: i32,
  data: usize,
  sums: usize,
  cells: usize,
  pixels: usize,
  r: f64,
  g: f64,
  b: f64,
): void {
  if (bits === 8) addShares<u8>(data, sums, cells, pixels, r, g, b);
  else addShares<u16>(data, sums, cells, pixels, r, g, b);
}
