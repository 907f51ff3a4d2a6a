import { fileURLToPath } from "node:url";
import asc from "assemblyscript/asc";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));

/** No runtime and no data. */
const OPTIONS = ["--runtime", "stub", "--noAssert", "-O3", "--converge", "--enable", "simd"];

export interface Kernel {
  /** AssemblyScript, from the root of the project; compiled into the file named `bytes` beside it. */
  readonly source: string;
  readonly bytes: string;
  /** Pages of 64 KiB. */
  readonly memory: readonly string[];
}

export const KERNELS: readonly Kernel[] = [
  {
    source: "src/colour/simd/kernel.as.ts",
    bytes: "src/colour/simd/kernelBytes.ts",
    // Two pages hold its seven planes, and never grow.
    memory: ["--initialMemory", "2", "--maximumMemory", "2"],
  },
  {
    source: "src/raster/kernel/rows.as.ts",
    bytes: "src/raster/kernel/rowsBytes.ts",
    memory: ["--initialMemory", "1"],
  },
];

/**
 * Compiles a kernel. The compiler is pinned, so the same source gives the same bytes.
 * @returns The module in base64, as its file of bytes holds it.
 */
export async function compileKernel({ source, memory }: Kernel): Promise<string> {
  let bytes: Uint8Array | null = null;
  const { error } = await asc.main(
    [source, "--baseDir", ROOT, "--outFile", "kernel.wasm", ...OPTIONS, ...memory],
    {
      writeFile(_name, contents) {
        if (typeof contents !== "string") bytes = contents;
      },
    },
  );
  if (error !== null || bytes === null)
    throw new Error(`Expected a module from ${source}, received: ${error?.message ?? "nothing"}`);
  return Buffer.from(bytes).toString("base64");
}
