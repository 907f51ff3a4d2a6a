import { startWasm } from "../../colour/simd/startWasm.ts";
import { KERNEL_BASE64 } from "./rowsBytes.ts";

/** The compiled sums over rows (`rows.as.ts`), of 8 or 16 bits a code. Places are bytes in its memory. */
export interface RowKernel {
  /** The memory, of at least so many bytes. Where it grows, earlier views of it go stale. */
  readonly reserve: (bytes: number) => ArrayBuffer;
  readonly addCells: (
    bits: 8 | 16,
    data: number,
    tables: number,
    sums: number,
    cells: number,
    pixels: number,
  ) => void;
  readonly addGrey: (
    bits: 8 | 16,
    data: number,
    sums: number,
    cells: number,
    pixels: number,
    ...shares: readonly [r: number, g: number, b: number]
  ) => void;
}

interface Exports extends Pick<RowKernel, "addCells" | "addGrey"> {
  readonly memory: { readonly buffer: ArrayBuffer; readonly grow: (pages: number) => number };
}

const PAGE = 65536;

function startKernel(): RowKernel | null {
  const exports = startWasm<Exports>(KERNEL_BASE64);
  if (exports === null) return null;
  const { memory, addCells, addGrey } = exports;
  return {
    reserve(length) {
      const missing = Math.ceil((length - memory.buffer.byteLength) / PAGE);
      if (missing > 0) memory.grow(missing);
      return memory.buffer;
    },
    addCells,
    addGrey,
  };
}

/** The kernel of this thread; null where there is no WebAssembly. */
export const ROW_KERNEL = startKernel();
