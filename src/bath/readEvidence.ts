import { z } from "zod";
import { DEFAULT_LIMITS, WET_SHEET_ML } from "../../calibration/priors.ts";
import { conditionSlip } from "./conditionSlip.ts";
import { parseUserJson, type UserFile } from "../json/parseUserJson.ts";
import type { Evidence } from "./evidence.ts";

const lab = z.tuple([
  z.number().min(0).max(110),
  z.number().min(-150).max(150),
  z.number().min(-150).max(150),
]);
const volumeMl = z.number().positive().max(100_000);
const areaCm2 = z.number().positive().max(100_000);

/** A condition out of its range is told with what was probably meant. */
const meaning = (condition: "minutes" | "temperatureC" | "ph") => ({
  error: ({ input }: { readonly input?: unknown }) =>
    typeof input === "number" ? (conditionSlip(condition, input) ?? undefined) : undefined,
});

/** Also of `dist/schema/evidence.json`. */
export const EVIDENCE = z.object({
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
        minutes: z
          .number()
          .positive(meaning("minutes"))
          .max(10_000, meaning("minutes"))
          .nullable()
          .default(null),
        temperatureC: z
          .number()
          .min(0, meaning("temperatureC"))
          .max(100, meaning("temperatureC"))
          .nullable()
          .default(null),
        ph: z.number().min(0, meaning("ph")).max(14, meaning("ph")).nullable().default(null),
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

/** The file as its reader names it, and how it is mended. */
export const EVIDENCE_FILE: UserFile = {
  what: "an evidence file (schema lastrinse.evidence, version 1)",
  remedy:
    "Mend the entries named: Lab as [L, a, b], areas in cm2, volumes in mL, blot one of bleeds, doubtful, fast, untested. The README shows one.",
};

/** With defaults filled in, what was not stated null; paths of the unprinted strip as written, relative to the file. */
export const CHECKED_EVIDENCE = EVIDENCE.superRefine(
  ({ baths, bathVolumeMl, wetSheetMl }, context) => {
    if (baths[0]?.settled === true)
      context.addIssue({
        code: "custom",
        path: ["baths", 0, "settled"],
        message: "the first photo can't be a settled second one",
      });
    // Volumes that no more than wet the sheet, such as litres written for millilitres.
    const volumes = [
      { path: ["bathVolumeMl"], value: bathVolumeMl },
      ...baths.map(({ volumeMl: value }, i) => ({ path: ["baths", i, "volumeMl"], value })),
    ];
    for (const { path, value } of volumes) {
      const message =
        typeof value === "number" ? conditionSlip("volumeMl", value, wetSheetMl) : null;
      if (message !== null) context.addIssue({ code: "custom", path, message });
    }
  },
).transform(({ paper, baths, ...rest }): Evidence => ({
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
}));

/**
 * The evidence file, checked: what is known beside the jar photos.
 * @param text JSON of the file.
 * @param fileName Named in the error.
 * @throws {LastrinseError} `bad-json`, naming path and line of each wrong entry.
 */
export function readEvidence(text: string, fileName: string): Evidence {
  return parseUserJson(text, fileName, CHECKED_EVIDENCE, EVIDENCE_FILE);
}
