import { z } from "zod";

/** Version of the event format. A record with a newer one is refused, an older one is read by its own rules. */
export const EVENT_VERSION = 1;

/** Name of an event's file: its id. */
export const EVENT_FILE = /^(\d{6})\.json$/;

const text = z.string().max(20_000);
const finite = z.number();
const point = z.tuple([finite, finite]);
const box = z.tuple([finite, finite, finite.positive(), finite.positive()]);

const sheetState = z.enum(["dry", "damp", "wet"]);
export const SIDES = ["front", "back", "inside-front", "inside-back"] as const;

const limits = z.object({
  maxDeltaE00: finite.positive(),
  risk: finite.min(0).max(1),
  minGain: finite.min(0).max(1),
});

const scanSettings = z.object({
  side: z.enum(SIDES),
  card: text,
  corners: z.tuple([point, point, point, point]).nullable(),
  state: sheetState,
  stateAssumed: z.boolean(),
  dpi: finite.positive().nullable(),
  page: z.number().int().positive().nullable(),
});

/** What is known of the print, for this scan and every after scan of its side; left out: nothing. */
const beforeSettings = scanSettings.extend({
  /** A bare place or the paper's colour, as it was typed: see `parsePaper`. */
  paper: text.optional(),
  plates: z.enum(["auto", "none"]).optional(),
  solids: z.array(z.object({ name: text.min(1), x: finite, y: finite })).optional(),
});

const blotConditions = z.object({
  liquid: text.nullable(),
  surfactant: z.boolean().nullable(),
  ph: finite.min(0).max(14).nullable(),
  temperatureC: finite.min(-10).max(100).nullable(),
  minutes: finite.positive().nullable(),
  site: text.nullable(),
});

const bathConditions = z.object({
  kind: z.enum(["wash", "rinse"]),
  /** null: nobody said; it then counts as holding surfactant. */
  surfactant: z.boolean().nullable(),
  composition: text.nullable(),
  minutes: finite.positive().nullable(),
  temperatureC: finite.min(-10).max(100).nullable(),
  volumeMl: finite.positive().nullable(),
  phIn: finite.min(0).max(14).nullable(),
  phOut: finite.min(0).max(14).nullable(),
  agitation: text.nullable(),
  foam: z.enum(["none", "some", "much"]).nullable(),
  note: text.nullable(),
});

/** What each kind of event says beside its inputs. */
export const SETTINGS = {
  opened: z.object({
    title: text,
    object: text.nullable(),
    bench: text.nullable(),
    jar: z.enum(["flat", "round"]).nullable(),
    insideMm: finite.positive().nullable(),
    passes: z.union([z.literal(1), z.literal(2)]).nullable(),
    limits,
  }),
  before: beforeSettings,
  after: scanSettings.extend({ stage: z.enum(["washed", "finished"]) }),
  blot: blotConditions.extend({
    ink: text.min(1),
    result: z.enum(["bleeds", "doubtful", "fast"]).nullable(),
    card: text.nullable(),
    spotBox: box.nullable(),
    controlBox: box.nullable(),
  }),
  bath: bathConditions.extend({
    /** Names of conditions taken over from the last bath of that kind, because they were left out. */
    repeated: z.array(text),
    card: text.nullable(),
  }),
  step: z.object({
    what: text,
    area: box.nullable(),
    bleed: text.nullable(),
  }),
  amended: z.object({
    /** Id of the event that this one corrects. */
    event: text,
    why: text.nullable(),
    /** true: the event counts as never made. */
    withdrawn: z.boolean(),
    /** Settings that replace those of the event. */
    changes: z.record(z.string(), z.unknown()),
  }),
} as const;

export type EventKind = keyof typeof SETTINGS;

export type Settings<Kind extends EventKind> = z.infer<(typeof SETTINGS)[Kind]>;

const inputSchema = z.object({
  /** What the file is for: scan, card, card-scan, spent, blank, photo, station, turbidity-series, turbidity-photo, evidence, recipe. */
  role: text,
  /** Path relative to the record's folder, with `/`; absolute where there is no relative one. */
  file: text,
  bytes: z.number().int().nonnegative(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});

export type EventInput = z.infer<typeof inputSchema>;

const common = {
  schema: z.literal("lastrinse.event"),
  version: z.literal(EVENT_VERSION),
  id: z.string().regex(/^\d{6}$/),
  /** ISO 8601 with offset; never used for ordering. */
  at: z.iso.datetime({ offset: true }),
  program: text,
  inputs: z.array(inputSchema),
};

function eventOf<Kind extends EventKind>(kind: Kind) {
  return z.object({ ...common, kind: z.literal(kind), settings: SETTINGS[kind] });
}

export const eventSchema = z.discriminatedUnion("kind", [
  eventOf("opened"),
  eventOf("before"),
  eventOf("after"),
  eventOf("blot"),
  eventOf("bath"),
  eventOf("step"),
  eventOf("amended"),
]);

/** One step of a treatment, as its file under `events/` holds it. */
export type RecordEvent = z.infer<typeof eventSchema>;

export type EventOf<Kind extends EventKind> = Extract<RecordEvent, { kind: Kind }>;
