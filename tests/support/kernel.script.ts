/** Compiles src/colour/simd/kernel.as.ts and writes the module beside it. Run: npm run kernel. */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { compileKernel } from "./compileKernel.ts";

const LINE = 96;

const lines = (await compileKernel()).match(new RegExp(`.{1,${LINE}}`, "g")) ?? [];
const file = fileURLToPath(new URL("../../src/colour/simd/kernelBytes.ts", import.meta.url));
writeFileSync(
  file,
  `/** The module of \`kernel.as.ts\` in base64, written by \`npm run kernel\`: not to be edited. */
export const KERNEL_BASE64 =
  ${lines.map((line) => `"${line}"`).join(" +\n  ")};
`,
);
console.log(`${lines.join("").length} characters -> ${file}`);
