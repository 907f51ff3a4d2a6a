import { stringify } from "csv-stringify/sync";
import { Command } from "commander";
import { LastrinseError } from "../../src/errors.ts";
import type { RecordEvent } from "../../src/record/event.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { CommonOptions } from "../context.ts";
import { recordNamed } from "../inRecord.ts";
import { plainText } from "../plainText.ts";
import type { ExportResult } from "../../src/results/exportResult.ts";
import { toJson } from "../toJson.ts";

interface ExportOptions extends CommonOptions {
  readonly csv: boolean;
}

/** `export`: every event of a record, as JSON or as a table. */
export function exportCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("export")
    .description("print every event of a record, --json or --csv; with --out also as a file")
    .argument("<record>", "folder of the record")
    .option("--csv", "a table after RFC 4180, one row a setting", false)
    .addHelpText(
      "after",
      "\nExamples:\n  lastrinse export brine-bell --json\n  lastrinse export brine-bell --csv --out for-the-owner",
    );
  return runsJob<ExportOptions>(command, setExitStatus, async ([folder], options) => {
    const record = await recordNamed(folder);
    if (options.csv && options.json)
      throw new LastrinseError("wrong-use", "Expected --csv or --json, received both.", {
        remedy: "Give one of them.",
        input: "--csv",
      });
    const { events, damaged, warnings } = record;
    const json: ExportResult = {
      schema: "lastrinse.export",
      version: 1,
      events,
      damaged,
      warnings,
    };
    const csv = eventsCsv(events);
    const name = options.csv ? "record.csv" : "record.json";
    return {
      outputs: [name],
      run: () =>
        Promise.resolve({
          json,
          text: options.csv ? csv : toJson(json),
          files: { [name]: options.csv ? csv : toJson(json) },
        }),
    };
  });
}

/** One row a setting and a file, so that every kind of event fits one table. */
function eventsCsv(events: readonly RecordEvent[]): string {
  const rows = events.flatMap(({ id, at, kind, program, settings, inputs }) => [
    ...Object.entries(settings).map(([name, value]) => ({
      id,
      at,
      kind,
      program: plainText(program),
      name,
      value: plainText(typeof value === "string" ? value : JSON.stringify(value)),
    })),
    ...inputs.map(({ role, file, bytes, sha256 }) => ({
      id,
      at,
      kind,
      program: plainText(program),
      name: plainText(`input: ${role}`),
      value: plainText(`${file} (${String(bytes)} bytes, SHA-256 ${sha256})`),
    })),
  ]);
  return stringify(rows, {
    header: true,
    columns: ["id", "at", "kind", "program", "name", "value"],
    record_delimiter: "\r\n",
    escape_formulas: true,
  });
}
