import { KERNEL_BASE64 } from "./kernelBytes.ts";
import { startWasm } from "./startWasm.ts";

/** The compiled kernel (`kernel.as.ts`) with its memory. Not to be shared between threads. */
export interface SimdKernel {
  /** Cells that a plane of the memory holds: no call may be given more. */
  readonly blockCells: number;
  /** L*, a*, b* of the reference, L*, a*, b* of the sample, dE00. `lightToLab` works in the first three. */
  readonly memory: readonly Float32Array[];
  /** Linear R, G, B to CIELAB by the rows of a 3 x 3 and their offsets, relative to the white. */
  readonly lightToLab: (cells: number, ...rows: number[]) => void;
  readonly deltaE00: (cells: number) => void;
}

interface Exports extends Pick<SimdKernel, "lightToLab" | "deltaE00"> {
  readonly memory: { readonly buffer: ArrayBuffer };
  readonly BLOCK: { readonly value: number };
}

const PLANES = 7;

/**
 * A new instance of the vector kernel, with 128 KiB of its own.
 * @returns null where there is no WebAssembly, or none with vectors of 128 bits (processors from before 2008; switched off).
 */
export function startKernel(): SimdKernel | null {
  const exports = startWasm<Exports>(KERNEL_BASE64);
  if (exports === null) return null;
  const { memory, BLOCK, lightToLab, deltaE00 } = exports;
  const blockCells = BLOCK.value;
  // The memory never grows, so that the views stay valid.
  const planes = Array.from(
    { length: PLANES },
    (_, k) => new Float32Array(memory.buffer, 4 * k * blockCells, blockCells),
  );
  return { blockCells, memory: planes, lightToLab, deltaE00 };
}
