import { z } from "zod";
import { parseUserJson } from "../json/parseUserJson.ts";
import type { Card } from "./card.ts";

/** The most patches a card file may name: the largest charts in trade have some thousand. */
const MOST_PATCHES = 2000;

const lab = z.tuple([z.number().min(-1).max(110), z.number().min(-160).max(160), z.number().min(-160).max(160)]); // prettier-ignore

const CARD = z
  .object({
    schema: z.literal("lastrinse.card"),
    version: z.literal(1),
    title: z.string().min(1).max(200).optional(),
    rows: z.int().min(2).max(100),
    columns: z.int().min(2).max(100),
    patches: z
      .array(z.object({ name: z.string().min(1).max(80), lab, neutral: z.boolean().optional() }))
      .min(8)
      .max(MOST_PATCHES),
    pitchMm: z.number().positive().max(1000).nullish(),
    measured: z.boolean().optional(),
    source: z.string().max(500).optional(),
  })
  .refine(({ rows, columns, patches }) => patches.length === rows * columns, {
    message: "as many patches as rows times columns are needed",
    path: ["patches"],
  })
  .refine(({ patches }) => new Set(patches.map(({ name }) => name)).size === patches.length, {
    message: "every patch needs a name of its own",
    path: ["patches"],
  });

/** A patch with less chroma counts as a grey where the file does not say. */
const NEUTRAL_CHROMA = 8;

/**
 * A card from a JSON reference file, the form in which `card show NAME --json` prints one: schema, version, rows, columns, and
 * patches with name and lab (CIELAB D50, 2 degree), row-major; optional are title, pitchMm, measured (default true) and source.
 * @param name What the card is called: the path of the file.
 * @throws {LastrinseError} `bad-json`, naming path and line of each wrong entry.
 */
export function cardFromJson(text: string, name: string): Card {
  const { title, rows, columns, patches, pitchMm, measured, source } = parseUserJson(
    text,
    name,
    CARD,
    {
      what: "a card (schema lastrinse.card, version 1)",
      remedy:
        "Mend the entries named; `lastrinse card show chart24-post2014 --json` prints a card in this form.",
    },
  );
  return {
    name,
    title: title ?? `${patches.length}-patch card of a reference file`,
    rows,
    columns,
    patches: patches.map((patch) => ({
      name: patch.name,
      lab: patch.lab,
      neutral: patch.neutral ?? Math.hypot(patch.lab[1], patch.lab[2]) < NEUTRAL_CHROMA,
    })),
    pitchMm: pitchMm ?? null,
    measured: measured ?? true,
    source: source ?? `reference file ${name}, CIELAB D50, 2 degree`,
  };
}
