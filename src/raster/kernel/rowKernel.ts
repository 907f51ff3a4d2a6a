import { KERNEL_BASE64 } from "./rowsBytes.ts";

type Codes = 8 | 16;

/** The compiled sums over rows (`rows.as.ts`). Places are bytes in its memory. */
export interface RowKernel {
  /** The memory, of at least so many bytes. Where it grows, earlier views of it go stale. */
  readonly reserve: (bytes: number) => ArrayBuffer;
  readonly addCells: Readonly<
    Record<Codes, (data: number, tables: number, sums: number, cells: number, pixels: number) => void> // prettier-ignore
  >;
  readonly addGrey: Readonly<
    Record<Codes, (data: number, sums: number, cells: number, pixels: number, ...shares: [r: number, g: number, b: number]) => void> // prettier-ignore
  >;
}

/** The part of WebAssembly that is used here; Node's types leave it to those of the browser. */
interface WebAssemblyOfHost {
  readonly validate: (bytes: Uint8Array) => boolean;
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object) => {
    readonly exports: {
      readonly memory: { readonly buffer: ArrayBuffer; readonly grow: (pages: number) => number };
      readonly addCells8: RowKernel["addCells"][8];
      readonly addCells16: RowKernel["addCells"][16];
      readonly addGrey8: RowKernel["addGrey"][8];
      readonly addGrey16: RowKernel["addGrey"][16];
    };
  };
}

const PAGE = 65536;

function startKernel(): RowKernel | null {
  const { WebAssembly } = globalThis as unknown as { readonly WebAssembly?: WebAssemblyOfHost };
  const bytes = Buffer.from(KERNEL_BASE64, "base64");
  if (WebAssembly?.validate(bytes) !== true) return null;
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes));
  const { memory } = exports;
  return {
    reserve(length) {
      const missing = Math.ceil((length - memory.buffer.byteLength) / PAGE);
      if (missing > 0) memory.grow(missing);
      return memory.buffer;
    },
    addCells: { 8: exports.addCells8, 16: exports.addCells16 },
    addGrey: { 8: exports.addGrey8, 16: exports.addGrey16 },
  };
}

/** The kernel of this thread; null where there is no WebAssembly. */
export const ROW_KERNEL = startKernel();
