/**
 * Registration against the truth of rendered pairs, all cases, as a table. Run: npx tsx tests/study/registration.script.ts [small]
 * (compile first: npm run build). The whole cover of 395 x 265 mm at 300 dpi takes some minutes.
 */
import { registerSheets } from "../../src/register/registerSheets.ts";
import { closeVision } from "../../src/vision/pool.ts";
import { outlineOf, residuals } from "../support/registrationCase.ts";
import {
  COVER,
  PAIR_CASES,
  type PairCase,
  renderPair,
  SMALL,
} from "../support/registrationCases.ts";

const art = process.argv[2] === "small" ? SMALL : COVER;
console.log(`Sheet of ${String(art.widthMm)} x ${String(art.heightMm)} mm, px at 600 dpi.\n`);
console.log("| case | p95, all places | p95, trusted places | own estimate | masked | limit |");
console.log("|---|---|---|---|---|---|");
for (const pair of Object.values<PairCase>(PAIR_CASES)) {
  const { sides, before, after } = await renderPair(art, pair);
  const registration = await registerSheets(before, after, {
    sheetOutline: outlineOf(art, sides.before),
  });
  const { p95, trustedP95 } = residuals(registration, art, sides.before, sides.after);
  const own = (registration.residualP95Pixels * 600) / sides.before.dpi;
  const masked = `${(100 * registration.maskedShare).toFixed(0)} %`;
  const limit = `${String(pair.limit)}${pair.onTrusted === true ? " (trusted)" : ""}`;
  console.log(
    `| ${pair.name} | ${p95.toFixed(2)} | ${trustedP95.toFixed(2)} | ${own.toFixed(2)} | ${masked} | ${limit} |`,
  );
}
await closeVision();
