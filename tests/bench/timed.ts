/** Seconds of each of `times` runs, in ascending order. */
export async function timed(times: number, run: () => unknown): Promise<number[]> {
  const seconds: number[] = [];
  for (let k = 0; k < times; k++) {
    const start = performance.now();
    await run();
    seconds.push((performance.now() - start) / 1000);
  }
  return seconds.sort((a, b) => a - b);
}
