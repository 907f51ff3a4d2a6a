import { z } from "zod";
import { box, figure, interval, labD50, leaveOneOut, point, triple, warnings } from "./parts.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

const sheetState = z.enum(["dry", "damp", "wet"]);

/** Whether a frame shows dry, damp or wet paper: never compared with one another. */
export type SheetState = z.infer<typeof sheetState>;

const cardReport = z.object({
  name: z.string(),
  cornersPixels: z.array(point),
  matchResidual: z.number().describe("mean Lab residual of an affine colour fit of the patches"),
  model: z.string(),
  leaveOneOut,
  droppedPatches: z.array(z.string()),
});

export type CardReport = ReadonlyOf<typeof cardReport>;

const scanReport = z.object({
  file: z.string(),
  sha256: z.string(),
  widthPixels: z.number(),
  heightPixels: z.number(),
  dpi: figure,
  bitDepth: z.number(),
  profile: z.string().nullable(),
  state: sheetState,
  card: cardReport,
});

export type ScanReport = ReadonlyOf<typeof scanReport>;

const registrationReport = z.object({
  accepted: z.literal(true),
  inliers: z.number(),
  scaleX: z.number(),
  scaleY: z.number(),
  rotationDegrees: z.number(),
  residualP95Pixels: z.number(),
  maskedShare: z.number().describe("share of the sheet whose own tiles could not hold the map"),
  measuredShare: z
    .number()
    .optional()
    .describe("0..1 of the sheet that has a figure in the difference map; absent in older results"),
  selfConsistencyDeltaE00: figure.describe(
    "dE00 p95 of the before scan against itself displaced by the residual: what misplacement alone could feign",
  ),
  points: z.array(z.object({ before: point, after: point })),
});

export type RegistrationReport = ReadonlyOf<typeof registrationReport>;

/** What was measured on one area. Lab is CIELAB D50 of the mean linear-light colour; differences are CIEDE2000. */
const areaReport = z.object({
  areaCm2: z.number(),
  pixels: z.number(),
  centroidPixels: point,
  labBefore: labD50.nullable(),
  labAfter: labD50.nullable(),
  deltaE00: figure,
  deltaE00Low: figure,
  deltaE00High: figure,
  floorDeltaE00: figure.describe("the smallest change that may be claimed here"),
  deltaL: figure,
  deltaC: figure,
  deltaH: figure,
  pixelDeltaE00: z.object({ median: figure, p95: figure }),
  greyScaleStep: figure.describe(
    "ISO 105-A05, from CIELAB D50: a grade as common language, not a test after that standard",
  ),
});

export type AreaReport = ReadonlyOf<typeof areaReport>;

const regionReport = z.object({ ...areaReport.shape, id: z.string(), boxPixels: box });

export type RegionReport = ReadonlyOf<typeof regionReport>;

const paperVerdict = z.enum(["lighter", "darker", "no-change-shown", "uncertain"]);

export type PaperVerdict = z.infer<typeof paperVerdict>;

const paperReport = z.object({
  ...areaReport.shape,
  source: z
    .enum(["bare", "edge", "inside-face", "given", "estimated", "none"])
    .describe(
      "where the paper's colour comes from; `estimated` and `none`: it was not measured, and no loss of ink can be concluded",
    ),
  sigmaDeltaE00: figure.describe(
    "how far its colour may be from that of the bare paper, one standard deviation; null where nothing is known",
  ),
  verdict: paperVerdict,
  deltaA: figure,
  deltaB: figure,
  yellownessBefore: figure.describe("estimate after ASTM E313"),
  yellownessAfter: figure,
});

export type PaperSource = z.infer<typeof paperReport>["source"];

export type PaperReport = ReadonlyOf<typeof paperReport>;

const inkVerdict = z.enum(["ink-lost", "changed", "no-change-shown", "uncertain"]);

export type InkVerdict = z.infer<typeof inkVerdict>;

const inkReport = z.object({
  ...areaReport.shape,
  id: z.string(),
  kind: z.enum(["ink", "overprint", "black"]),
  label: z.number(),
  paperPartDeltaE00: figure.describe(
    "change explained by the paper's own change under an untouched ink",
  ),
  inkPartDeltaE00: figure.describe("what is left for loss of ink"),
  inkPartLow: figure.describe("95 % interval"),
  inkPartHigh: figure,
  measuredShare: z
    .number()
    .optional()
    .describe("0..1 of the ink's area that its figures speak for; absent in older results"),
  verdict: inkVerdict,
  regions: z.array(regionReport),
});

export type InkReport = ReadonlyOf<typeof inkReport>;

const tideLine = z.object({ boxPixels: box, widthMm: z.number(), deltaB: z.number() });

export type TideLine = ReadonlyOf<typeof tideLine>;

const bleed = z.object({ ink: z.string(), boxPixels: box, reachMm: z.number() });

export type Bleed = ReadonlyOf<typeof bleed>;

const damageReport = z.object({
  tideLines: z.array(tideLine),
  bleeds: z.array(bleed),
  unevenCleaning: figure,
  dullBlacks: figure,
});

export type DamageReport = ReadonlyOf<typeof damageReport>;

const plateVerdict = z.enum(["lost", "none-shown", "uncertain", "absent"]);

const share = z.number().describe("0..1 of the plate's colourant");

const plateReport = z.object({
  id: z.string(),
  name: z.string(),
  solidLab: labD50,
  source: z.enum(["picked", "scan", "usual"]),
  meanCoverage: interval,
  lost: share,
  low: share,
  high: share,
  verdict: plateVerdict,
  deltaE00: interval.describe("mean dE00 that this loss alone costs"),
  worst: z
    .object({ place: z.string(), boxPixels: box, lost: share, low: share, high: share })
    .nullable(),
  tiles: z.object({ file: z.literal("plates.json"), cellMm: z.number() }),
});

/** One printing ink of the press: what it lost. */
export type PlateReport = ReadonlyOf<typeof plateReport>;

const plateModel = z.object({
  bands: z.literal("soft"),
  paper: z.enum(["bare", "from-lights"]).nullable(),
  paperChange: triple.nullable().describe("of ln of the bands"),
  cells: z.number(),
  tiles: z.number(),
  blackAmbiguity: figure,
  misfit: figure,
  film: interval.nullable(),
  darkness: figure,
  refused: z.string().nullable(),
});

export type PlateModelReport = ReadonlyOf<typeof plateModel>;

/** The object printed by `compare --json`. */
export const compareResult = z.object({
  schema: z.literal("lastrinse.compare"),
  version: z.literal(1),
  colour: z.object({
    illuminant: z.literal("D50"),
    observer: z.literal("2deg"),
    difference: z.literal("CIEDE2000"),
  }),
  before: scanReport,
  after: scanReport,
  registration: registrationReport,
  paper: paperReport.nullable(),
  inks: z.array(inkReport),
  plates: z
    .array(plateReport)
    .nullable()
    .optional()
    .describe("the printing inks, which alone carry a loss; null: not asked for, or refused"),
  plateModel: plateModel.nullable().optional().describe("null: plates were not asked for"),
  labels: z
    .object({ file: z.literal("inks.png"), paper: z.literal(255) })
    .describe("8-bit picture of the before scan: a pixel is the label of its ink, 0 not measured"),
  damage: damageReport,
  warnings,
});

export type CompareResult = ReadonlyOf<typeof compareResult>;
