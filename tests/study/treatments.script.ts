/**
 * The long study behind the decision rule: `npm run study` or `npx tsx tests/study/treatments.script.ts [treatments] [seed]`.
 * Prints the table of `tests/study/README.md`.
 */
import { simulateTreatments } from "../support/simulateTreatments.ts";

const treatments = Number(process.argv[2] ?? 3000);
const seed = Number(process.argv[3] ?? 2026);
const two = (value: number) => value.toFixed(2);

const variants = [
  { name: "new bench, jar photos only", options: {} },
  { name: "with a bath of unprinted paper", options: { withStrip: true } },
  { name: "after three finished treatments", options: { finishedJobs: 3 } },
] as const;

console.log(`${treatments} treatments, seed ${seed}, limit 2.0 dE00, risk 0.10, least gain 0.10\n`);
for (const { name, options } of variants) {
  const result = simulateTreatments({ treatments, seed, ...options });
  console.log(`### ${name}\n`);
  console.log("| policy | exceeds limit | soil removed (share of 8 baths) | baths | p95 fade |");
  console.log("|---|---|---|---|---|");
  for (const [policy, { exceeds, soilRemoved, baths, p95Fade }] of Object.entries(result.policies))
    console.log(
      `| ${policy} | ${exceeds.toFixed(3)} | ${two(soilRemoved)} | ${baths.toFixed(1)} | ${p95Fade.toFixed(1)} |`,
    );
  const { nextSoilCoverage, nextInkCoverage, fadeCoverage } = result;
  console.log(
    `\nTruth inside the 90 % range: next bath, soil ${two(nextSoilCoverage)}; next bath, ink ${two(nextInkCoverage)}; fade ${two(fadeCoverage)}.\n`,
  );
}
