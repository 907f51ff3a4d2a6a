import type { Progress } from "../src/progress.ts";
import type { PrintedResult } from "../src/results/resultSchemas.ts";

/** Options that every command takes. */
export interface CommonOptions {
  readonly json: boolean;
  readonly out?: string;
  readonly overwrite: boolean;
  readonly quiet: boolean;
  readonly progress: boolean;
  readonly dryRun: boolean;
  readonly strict: boolean;
  readonly debug: boolean;
}

/** A file to be written into `--out`. */
export type OutputFiles = Readonly<Record<string, string | Uint8Array>>;

export interface Result {
  /** Printed as one JSON object with `--json`. Keys keep their order. */
  readonly json: PrintedResult;
  /** Printed for people without `--json`. */
  readonly text: string;
  /** Written into `--out` by name; the names are among those announced. */
  readonly files?: OutputFiles;
  /** 0 unless `--exit-by-advice` asks otherwise. */
  readonly exitStatus?: number;
}

/** One command made ready: what it would write is known before the long work starts. */
export interface Job {
  /** Names of the files that go into `--out`; empty without `--out`. */
  readonly outputs: readonly string[];
  /** Every name that the command may ever write: what a former run left there goes or is refused. Default: `outputs`, and nothing goes. */
  readonly owned?: readonly string[];
  run(progress: Progress): Promise<Result>;
}
