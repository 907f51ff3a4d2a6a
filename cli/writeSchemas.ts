import { mkdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { eventSchema } from "../src/record/event.ts";
import { RESULT_SCHEMAS } from "../src/results/resultSchemas.ts";

/**
 * Last step of the build: `dist/schema/NAME.json`, a JSON Schema (draft 2020-12) of every object named `lastrinse.NAME` that
 * is printed or written. Fields they do not name are allowed: results may grow.
 */
const folder = fileURLToPath(new URL("../schema/", import.meta.url));
mkdirSync(folder, { recursive: true });
for (const [name, schema] of Object.entries({ ...RESULT_SCHEMAS, event: eventSchema })) {
  const { $schema, ...rest } = z.toJSONSchema(schema, { io: "input", reused: "ref" });
  const named = { $schema, title: `lastrinse.${name}`, ...rest };
  writeFileSync(`${folder}${name}.json`, `${JSON.stringify(named, null, 2)}\n`);
}
