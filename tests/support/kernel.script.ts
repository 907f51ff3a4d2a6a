/** Compiles the kernels and writes each module beside its source. Run: npm run kernel. */
import { writeFileSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import { compileKernel, KERNELS } from "./compileKernel.ts";

const LINE = 96;

for (const kernel of KERNELS) {
  const lines = (await compileKernel(kernel)).match(new RegExp(`.{1,${LINE}}`, "g")) ?? [];
  writeFileSync(
    fileURLToPath(new URL(`../../${kernel.bytes}`, import.meta.url)),
    `/** The module of \`${basename(kernel.source)}\` in base64, written by \`npm run kernel\`: not to be edited. */
export const KERNEL_BASE64 =
  ${lines.map((line) => `"${line}"`).join(" +\n  ")};
`,
  );
  console.log(`${lines.join("").length} characters -> ${kernel.bytes}`);
}
