import { fileURLToPath } from "node:url";
import asc from "assemblyscript/asc";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const SOURCE = "src/colour/simd/kernel.as.ts";

/** No runtime and no data: two pages hold its seven planes, and never grow. */
const OPTIONS = ["--runtime", "stub", "--noAssert", "-O3", "--converge", "--enable", "simd"];
const PAGES = ["--initialMemory", "2", "--maximumMemory", "2"];

/**
 * Compiles the vector kernel. The compiler is pinned, so the same source gives the same bytes.
 * @returns The module in base64, as `src/colour/simd/kernelBytes.ts` holds it.
 */
export async function compileKernel(): Promise<string> {
  let bytes: Uint8Array | null = null;
  const { error } = await asc.main(
    [SOURCE, "--baseDir", ROOT, "--outFile", "kernel.wasm", ...OPTIONS, ...PAGES],
    {
      writeFile(_name, contents) {
        if (typeof contents !== "string") bytes = contents;
      },
    },
  );
  if (error !== null || bytes === null)
    throw new Error(`Expected a module from ${SOURCE}, received: ${error?.message ?? "nothing"}`);
  return Buffer.from(bytes).toString("base64");
}
