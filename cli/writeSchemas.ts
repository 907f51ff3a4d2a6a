import { mkdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { EVIDENCE } from "../src/bath/readEvidence.ts";
import { STATION } from "../src/jar/place/readStation.ts";
import { SERIES } from "../src/jar/readTurbiditySeries.ts";
import { eventSchema } from "../src/record/event.ts";
import { inkCorrectionsSchema } from "../src/regions/inkCorrections.ts";
import { RESULT_SCHEMAS } from "../src/results/resultSchemas.ts";

/**
 * Last step of the build: `dist/schema/NAME.json`, a JSON Schema (draft 2020-12) of every object named `lastrinse.NAME` that
 * is printed, written or read. Fields they do not name are allowed: results may grow. The ink corrections alone are strict.
 */
const folder = fileURLToPath(new URL("../schema/", import.meta.url));
mkdirSync(folder, { recursive: true });
const others = {
  event: eventSchema,
  evidence: EVIDENCE,
  inks: inkCorrectionsSchema,
  station: STATION,
  "turbidity-series": SERIES,
};
for (const [name, schema] of Object.entries({ ...RESULT_SCHEMAS, ...others })) {
  const { $schema, ...rest } = z.toJSONSchema(schema, { io: "input", reused: "ref" });
  const named = { $schema, title: `lastrinse.${name}`, ...rest };
  writeFileSync(`${folder}${name}.json`, `${JSON.stringify(named, null, 2)}\n`);
}
