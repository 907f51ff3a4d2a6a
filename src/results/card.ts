import { z } from "zod";
import { figure, labD50 } from "./parts.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

const named = {
  name: z.string(),
  title: z.string(),
  rows: z.number(),
  columns: z.number(),
  measured: z.boolean().describe("false: the values are printing aims and serve differences only"),
  source: z.string(),
};

/** The object printed by `card show --json`. */
export const shownCard = z.object({
  schema: z.literal("lastrinse.card"),
  version: z.literal(1),
  ...named,
  patches: z
    .array(z.object({ name: z.string(), lab: labD50, neutral: z.boolean() }))
    .describe("row-major, rows times columns of them"),
  pitchMm: figure.describe("distance between neighbouring patch centres; null: of several sizes"),
  notes: z.array(z.string()).optional(),
});

export type ShownCard = ReadonlyOf<typeof shownCard>;

/** The object printed by `card list --json`. */
export const cardList = z.object({
  schema: z.literal("lastrinse.card-list"),
  version: z.literal(1),
  cards: z.array(z.object({ ...named, default: z.boolean() })),
});

export type CardList = ReadonlyOf<typeof cardList>;

/** The object printed by `card sheet --json`. */
export const cardSheet = z.object({
  schema: z.literal("lastrinse.card-sheet"),
  version: z.literal(1),
  files: z.array(z.string()),
});

export type CardSheet = ReadonlyOf<typeof cardSheet>;
