import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

export interface CompareRun {
  readonly seconds: number;
  readonly cpuSeconds: number;
  readonly peakMegabytes: number;
}

const CLI = fileURLToPath(new URL("../../dist/cli/lastrinse.js", import.meta.url));

/**
 * Loaded before the program: tells at its end what it used. The peak is that of its own memory (Linux); the largest resident set
 * that the system counts for a process (elsewhere) may be that of the process which started it.
 */
const TELL = `data:text/javascript,${encodeURIComponent(
  `import{readFileSync}from"node:fs";import{isMainThread}from"node:worker_threads";
if(isMainThread)process.on("exit",()=>{const u=process.resourceUsage();let kib=u.maxRSS;
try{kib=Number(/VmHWM:\\s+(\\d+)/.exec(readFileSync("/proc/self/status","utf8"))[1])}catch{}
process.stderr.write("\\n@usage "+JSON.stringify([kib*1.024/1e3,(u.userCPUTime+u.systemCPUTime)/1e6])+"\\n")})`,
)}`;

/** One whole comparison by the compiled program, all files written, in a process of its own. */
export async function runCompare(before: string, after: string, out: string): Promise<CompareRun> {
  const words = ["--import", TELL, CLI, "compare", before, after];
  const options = ["--before-state", "dry", "--after-state", "dry", "--overwrite", "--out", out];
  const start = performance.now();
  const child = spawn(process.execPath, [...words, ...options, "--json"], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let printed = "";
  child.stdout.setEncoding("utf8").on("data", (text: string) => (printed += text));
  let told = "";
  child.stderr.setEncoding("utf8").on("data", (text: string) => (told += text));
  const status = await new Promise<number | null>((resolve, reject) => {
    child.on("error", reject).on("close", resolve);
  });
  const seconds = (performance.now() - start) / 1000;
  const usage = /@usage (\[.*\])/.exec(told)?.[1];
  if (status !== 0 || usage === undefined)
    throw new Error(
      `Expected a comparison, received status ${String(status)}: ${told}${printed.slice(0, 1000)}`,
    );
  const [peakMegabytes, cpuSeconds] = JSON.parse(usage) as [number, number];
  return { seconds, cpuSeconds, peakMegabytes };
}
