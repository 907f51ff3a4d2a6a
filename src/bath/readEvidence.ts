import { z } from "zod";
import { DEFAULT_LIMITS, WET_SHEET_ML } from "../../calibration/priors.ts";
import { LastrinseError } from "../errors.ts";
import { conditionSlip } from "./conditionSlip.ts";
import type { Evidence } from "./evidence.ts";

const lab = z.tuple([
  z.number().min(0).max(110),
  z.number().min(-150).max(150),
  z.number().min(-150).max(150),
]);
const volumeMl = z.number().positive().max(100_000);
const areaCm2 = z.number().positive().max(100_000);

const EVIDENCE = z.object({
  schema: z.literal("lastrinse.evidence"),
  version: z.literal(1),
  bathVolumeMl: volumeMl.nullable().default(null),
  wetSheetMl: z.number().min(0).max(10_000).default(WET_SHEET_ML),
  paper: z.object({ lab }),
  inks: z
    .array(
      z.object({
        id: z
          .string()
          .min(1)
          .refine((id) => id !== "soil", { message: '"soil" is no ink: choose another id' }),
        lab,
        areaCm2,
        blot: z.enum(["bleeds", "doubtful", "fast", "untested"]),
        stainedAreaCm2: areaCm2.nullable().default(null),
      }),
    )
    .superRefine((inks, context) => {
      const seen = new Set<string>();
      inks.forEach(({ id, areaCm2: area, stainedAreaCm2 }, i) => {
        if (seen.has(id))
          context.addIssue({ code: "custom", path: [i, "id"], message: `"${id}" stands twice` });
        seen.add(id);
        if (stainedAreaCm2 !== null && stainedAreaCm2 > area)
          context.addIssue({
            code: "custom",
            path: [i, "stainedAreaCm2"],
            message: "larger than areaCm2",
          });
      });
    }),
  baths: z
    .array(
      z.object({
        kind: z.enum(["wash", "rinse"]),
        surfactant: z.boolean().nullable().default(null),
        minutes: z.number().positive().max(10_000).nullable().default(null),
        temperatureC: z.number().min(0).max(100).nullable().default(null),
        ph: z.number().min(0).max(14).nullable().default(null),
        volumeMl: volumeMl.nullable().optional(),
        settled: z.boolean().default(false),
      }),
    )
    .default([]),
  unprintedStrip: z
    .object({ file: z.string().min(1), blank: z.string().min(1) })
    .nullable()
    .default(null),
  limits: z
    .object({
      maxDeltaE00: z.number().positive().max(100).default(DEFAULT_LIMITS.maxDeltaE00),
      risk: z.number().min(0).max(1).default(DEFAULT_LIMITS.risk),
      minGain: z.number().min(0).max(1).default(DEFAULT_LIMITS.minGain),
    })
    .default({ ...DEFAULT_LIMITS }),
});

const REMEDY =
  "Mend the entries named: Lab as [L, a, b], areas in cm2, volumes in mL, blot one of bleeds, doubtful, fast, untested.";

/**
 * The evidence file, checked: what is known beside the jar photos.
 * @param json Parsed JSON of the file.
 * @param fileName Named in the error.
 * @returns With defaults filled in, what was not stated null; paths of the unprinted strip as written, relative to the file.
 * @throws {LastrinseError} `bad-json`, naming every wrong entry by its path.
 */
export function readEvidence(json: unknown, fileName: string): Evidence {
  const parsed = EVIDENCE.safeParse(json);
  if (!parsed.success)
    throw refused(
      fileName,
      parsed.error.issues.map((issue) => withMeaning(issue, json)),
    );
  const { paper, baths, ...rest } = parsed.data;
  if (baths[0]?.settled === true)
    throw refused(fileName, [
      { path: ["baths", 0, "settled"], message: "the first photo can't be a settled second one" },
    ]);
  const slips = volumeSlips(parsed.data);
  if (slips.length > 0) throw refused(fileName, slips);
  return {
    bathVolumeMl: rest.bathVolumeMl,
    wetSheetMl: rest.wetSheetMl,
    paperLab: paper.lab,
    inks: rest.inks,
    // Left out: as every bath. Written as null: not known, whatever the others held.
    baths: baths.map((bath) => ({
      ...bath,
      volumeMl: bath.volumeMl === undefined ? rest.bathVolumeMl : bath.volumeMl,
    })),
    unprintedStrip: rest.unprintedStrip,
    limits: rest.limits,
  };
}

interface Issue {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}

/** Conditions by the last part of their path. */
const CONDITIONS = ["ph", "temperatureC", "minutes"] as const;

/** A condition out of its range, with what was probably meant. */
function withMeaning({ path, message }: Issue, json: unknown): Issue {
  const condition = CONDITIONS.find((name) => name === path.at(-1));
  const value = path.reduce<unknown>(
    (part, key) => (part as Record<PropertyKey, unknown> | undefined)?.[key],
    json,
  );
  if (condition === undefined || typeof value !== "number") return { path, message };
  return { path, message: conditionSlip(condition, value) ?? message };
}

/** Volumes that no more than wet the sheet, such as litres written for millilitres. */
function volumeSlips({ bathVolumeMl, wetSheetMl, baths }: z.infer<typeof EVIDENCE>): Issue[] {
  return [
    { path: ["bathVolumeMl"], value: bathVolumeMl },
    ...baths.map(({ volumeMl: value }, i) => ({ path: ["baths", i, "volumeMl"], value })),
  ].flatMap(({ path, value }) => {
    const message = typeof value === "number" ? conditionSlip("volumeMl", value, wetSheetMl) : null;
    return message === null ? [] : [{ path, message }];
  });
}

function refused(fileName: string, issues: readonly Issue[]): LastrinseError {
  const entries = issues.map(
    ({ path, message }) => `${path.map(String).join(".") || "the whole"}: ${message}`,
  );
  return new LastrinseError(
    "bad-json",
    `Expected an evidence file (schema lastrinse.evidence, version 1) in ${fileName}, received ${entries.join("; ")}.`,
    { remedy: REMEDY, input: fileName },
  );
}
