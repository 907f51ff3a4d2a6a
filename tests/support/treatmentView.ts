import type {
  AreaReport,
  CompareResult,
  InkReport,
  ScanReport,
} from "../../src/results/compareResult.ts";
import { encodePng } from "../../src/picture/encodePng.ts";
import type { RecordEvent, Settings } from "../../src/record/event.ts";
import type {
  BathView,
  ComparisonPngs,
  ComparisonView,
  TreatmentView,
} from "../../src/record/treatmentView.ts";
import { heatMap } from "../../src/picture/heatMap.ts";

/** Text that a page must show and never obey: markup, quotes, control characters, text that runs from right to left. */
export const HOSTILE =
  '<script>alert("x")</script> \'"& \u0007bell \u202Eturned \u05E9\u05DC\u05D5\u05DD </title></style>';

const WIDTH = 96;
const HEIGHT = 144;
const PIXELS_A_CELL = 10;

function area(change: number, more: Partial<AreaReport> = {}): AreaReport {
  return {
    areaCm2: 12.5,
    pixels: 4321,
    centroidPixels: [300, 400],
    labBefore: [50.123, 43.5, 24.25],
    labAfter: [51.5, 42.25, 24],
    deltaE00: change,
    deltaE00Low: change - 0.2,
    deltaE00High: change + 0.2,
    floorDeltaE00: 0.25,
    deltaL: 1.377,
    deltaC: -1.2,
    deltaH: -0.3,
    pixelDeltaE00: { median: change, p95: change + 0.5 },
    greyScaleStep: 4.2,
    ...more,
  };
}

function ink(id: string, label: number, part: number, more: Partial<InkReport> = {}): InkReport {
  return {
    ...area(part + 1),
    id,
    kind: "ink",
    label,
    paperPartDeltaE00: 1,
    inkPartDeltaE00: part,
    inkPartLow: Math.max(0, part - 0.5),
    inkPartHigh: part + 0.5,
    verdict: part > 0.5 ? "ink-lost" : "changed",
    regions: [],
    ...more,
  };
}

function scan(file: string, measuredCard: boolean): ScanReport {
  return {
    file,
    sha256: "ab".repeat(32),
    widthPixels: WIDTH * PIXELS_A_CELL,
    heightPixels: HEIGHT * PIXELS_A_CELL,
    dpi: 150,
    bitDepth: 8,
    profile: null,
    state: "dry",
    card: {
      name: "chart24-post2014",
      cornersPixels: [],
      matchResidual: 3,
      model: measuredCard ? "gam+3x3" : "3x3",
      leaveOneOut: measuredCard ? { mean: 1.1, p95: 2.2, max: 3.3 } : null,
      droppedPatches: measuredCard ? [] : ["A1"],
    },
  };
}

/** A comparison with damage, a lost ink, and an ink that was not measured. */
export function compareResult(
  more: Partial<CompareResult> = {},
  measuredCard = true,
): CompareResult {
  return {
    schema: "lastrinse.compare",
    version: 1,
    colour: { illuminant: "D50", observer: "2deg", difference: "CIEDE2000" },
    before: scan("scans/before.png", measuredCard),
    after: scan("scans/after.png", measuredCard),
    registration: {
      accepted: true,
      inliers: 200,
      scaleX: 1.004,
      scaleY: 0.998,
      rotationDegrees: 0.4,
      residualP95Pixels: 0.31,
      maskedShare: 0.04,
      selfConsistencyDeltaE00: 0.1,
      points: [],
    },
    paper: {
      ...area(2.9, { labBefore: [75, 4, 20], labAfter: [77.6, 3, 16.5] }),
      source: "bare",
      sigmaDeltaE00: 0.3,
      verdict: "lighter",
      deltaA: -1,
      deltaB: -3.5,
      yellownessBefore: 45,
      yellownessAfter: 36,
    },
    inks: [
      ink("blue", 2, 0.3),
      ink("red", 1, 1.4),
      ink("=cmd()", 3, 0, {
        kind: "overprint",
        deltaE00: null,
        deltaE00Low: null,
        deltaE00High: null,
        labAfter: null,
        inkPartDeltaE00: null,
        inkPartLow: null,
        inkPartHigh: null,
        floorDeltaE00: null,
        verdict: "uncertain",
      }),
    ],
    labels: { file: "inks.png", paper: 255 },
    damage: {
      tideLines: [{ boxPixels: [100, 200, 300, 40], widthMm: 1.4, deltaB: 2.2 }],
      bleeds: [{ ink: "red", boxPixels: [500, 900, 120, 100], reachMm: 2.1 }],
      unevenCleaning: 0.35,
      dullBlacks: null,
    },
    warnings: [{ code: "no-profile", message: `No profile in ${HOSTILE}` }],
    ...more,
  };
}

/** Drawn pictures: two squares of ink on paper, a ramp as difference. */
export async function comparisonPngs(): Promise<ComparisonPngs> {
  const labels = new Uint8Array(WIDTH * HEIGHT).fill(255);
  const rgb = new Uint8Array(3 * WIDTH * HEIGHT);
  const difference = new Float32Array(WIDTH * HEIGHT);
  for (let i = 0; i < labels.length; i++) {
    const [x, y] = [i % WIDTH, Math.floor(i / WIDTH)];
    if (y > 20 && y < 60 && x > 10 && x < 50) labels[i] = 1;
    if (y > 80 && y < 120 && x > 40 && x < 90) labels[i] = 2;
    const colour =
      labels[i] === 1 ? [190, 60, 50] : labels[i] === 2 ? [50, 80, 150] : [230, 215, 180];
    rgb.set(colour, 3 * i);
    difference[i] = x < 4 ? NaN : (12 * y) / HEIGHT;
  }
  const sheet = new Uint8Array(labels.length).fill(1);
  const mapped = { width: WIDTH, values: difference, floor: () => 0.5, sheet };
  const draw = (channels: 1 | 3, data: Uint8Array) =>
    encodePng({ width: WIDTH, height: HEIGHT, channels, data });
  return {
    before: await draw(3, rgb),
    after: await draw(
      3,
      rgb.map((code) => Math.min(255, code + 8)),
    ),
    difference: await draw(3, heatMap(mapped)),
    inkPart: await draw(3, heatMap({ ...mapped, bare: (cell) => labels[cell] === 255 })),
    inks: await draw(1, labels),
  };
}

const BATH: Settings<"bath"> = {
  kind: "wash",
  surfactant: true,
  composition: "25 mL limewater in 500 mL",
  minutes: 5,
  temperatureC: 38,
  volumeMl: 500,
  phIn: 8.5,
  phOut: null,
  agitation: null,
  foam: null,
  note: null,
  repeated: [],
  card: null,
};

async function bath(number: number, more: Partial<BathView> = {}): Promise<BathView> {
  const photo = new Uint8Array((await comparisonPngs()).before);
  return {
    id: String(10 + number).padStart(6, "0"),
    at: `2026-03-0${String(number)}T10:15:00+01:00`,
    settings: BATH,
    hasPhoto: true,
    jar: {
      file: `jar-${String(number)}.jpg`,
      absorbancePerCm: [0.01 / number, 0.02 / number, 0.05 / number],
      absorbanceSigma: [0.001, 0.001, 0.002],
      turbidityIndexPerCm: 0.003,
      turbidityIndexSigma: 0.0003,
      turbidityBeyondRange: false,
      turbidityFnu: null,
      turbidityFnuSigma: null,
    },
    refused: null,
    inkShare: {
      possible: [0, 0.6],
      likely: [0.05, 0.3],
      condition: "if only red bleeds",
      word: "partly known",
      remedy: null,
    },
    components: { soil: [0.03 / number, 0.04 / number, 0.05 / number], red: [0.001, 0.002, 0.006] },
    adviceBefore: {
      verdict: "continue",
      headline: "another bath is within your limits",
      sheetNow: "in-bath",
    },
    fadeSoFar: { red: [0.2 * number, 0.5 * number, 0.9 * number], blue: null },
    warnings: [],
    spentPhoto: photo,
    blankPhoto: photo,
    ...more,
  };
}

function events(): RecordEvent[] {
  const common = {
    schema: "lastrinse.event" as const,
    version: 1 as const,
    program: "0.1.0",
    inputs: [{ role: "scan", file: `scans/${HOSTILE}.png`, bytes: 9, sha256: "cd".repeat(32) }],
  };
  const at = "2026-03-01T09:00:00+01:00";
  return [
    {
      ...common,
      id: "000001",
      at,
      kind: "opened",
      settings: {
        title: HOSTILE,
        object: HOSTILE,
        bench: null,
        jar: "flat",
        insideMm: 50,
        passes: 1,
        limits: { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 },
      },
    },
    {
      ...common,
      id: "000002",
      at,
      kind: "step",
      settings: { what: `Blotters changed ${HOSTILE}`, area: null, bleed: "red" },
    },
    {
      ...common,
      id: "000003",
      at,
      kind: "amended",
      settings: {
        event: "000002",
        why: HOSTILE,
        withdrawn: false,
        changes: { what: HOSTILE },
      },
    },
  ];
}

const FADE = {
  red: {
    low: 0.6,
    mid: 1.5,
    high: 2.7,
    modelDeltaE00: 1.5,
    inkClass: "red" as const,
    stainedOnly: null,
  },
  blue: null,
};

/** A treatment written by hand, with a refused photo, repeated conditions and hostile text wherever people write. */
export async function treatmentView(
  kind: TreatmentView["kind"],
  more: Partial<TreatmentView> = {},
): Promise<TreatmentView> {
  const pictures = await comparisonPngs();
  const compared = { result: compareResult(), pictures };
  const front: ComparisonView = {
    side: "front",
    stage: "washed",
    at: "2026-03-09T10:00:00+01:00",
    compared,
    refused: null,
  };
  const back: ComparisonView = {
    ...front,
    side: "back",
    compared: null,
    refused: {
      code: "registration-failed",
      message: "Expected two scans of one sheet.",
      remedy: "Scan the back again.",
    },
  };
  const final = kind === "final";
  return {
    kind,
    title: HOSTILE,
    object: HOSTILE,
    program: "0.1.0",
    limits: { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 },
    advice: {
      verdict: "rinse-first",
      headline: "one plain rinse first, then ask again",
      sheetNow: "in-rinse",
      sheetText: "into a plain bath (without surfactant)",
      reasons: [
        {
          code: "surfactant-last",
          text: `Surfactant ${HOSTILE}`,
          value: null,
          limit: null,
          ink: null,
        },
      ],
      limits: { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 },
      riskOfExceeding: { red: 0.31, blue: null, [HOSTILE]: null },
      upperDeltaE00: { red: 3.9, blue: 0.4, [HOSTILE]: null },
      notShown: ["blue"],
      mustDo: ["Rinse once in plain water."],
      wouldChangeIt: [],
    },
    fade: FADE,
    bench: { red: { factor: 0.8, low: 0.5, high: 1.3, treatments: 2 } },
    nextBath: { soil: [0.002, 0.01, 0.02], red: [0.0005, 0.001, 0.004] },
    baths: [
      await bath(1),
      await bath(2, {
        settings: { ...BATH, note: HOSTILE, repeated: ["minutes", "phIn"] },
        jar: null,
        refused: { code: "overexposed", message: `Too bright ${HOSTILE}`, remedy: "Again." },
        inkShare: null,
        components: null,
        spentPhoto: null,
      }),
      await bath(3, { settings: { ...BATH, kind: "rinse", surfactant: false } }),
    ],
    blots: [
      {
        id: "000004",
        at: "2026-03-01T09:10:00+01:00",
        settings: {
          ink: HOSTILE,
          result: "fast",
          liquid: HOSTILE,
          surfactant: true,
          ph: 8.5,
          temperatureC: 38,
          minutes: 5,
          site: HOSTILE,
          card: null,
          spotBox: null,
          controlBox: null,
        },
        result: "fast",
        hasPhoto: false,
        refused: null,
        photo: null,
      },
    ],
    events: events(),
    beforePicture: { side: "front", png: pictures.before },
    scannedBefore: ["front", "back"],
    scannedAfter: final ? ["front"] : [],
    comparisons: final ? [front, back] : [],
    prediction: final
      ? {
          inks: [
            {
              id: "red",
              predicted: { low: 0.6, mid: 1.5, high: 2.7 },
              modelDeltaE00: 0.9,
              measured: 1.4,
              measuredLow: 0.9,
              measuredHigh: 1.9,
              floorDeltaE00: 0.25,
              verdict: "agrees",
              agrees: true,
            },
          ],
          agreeing: 1,
          compared: 1,
          teaches: [],
          taught: [],
        }
      : null,
    warnings: [{ code: "event-damaged", message: `000009.json can't be used: ${HOSTILE}` }],
    ...more,
  };
}

/** A record with nothing but its title: no scan, no card, no bath. */
export function emptyView(): Promise<TreatmentView> {
  return treatmentView("interim", {
    title: "Nothing yet",
    object: null,
    fade: {},
    bench: {},
    nextBath: null,
    baths: [],
    blots: [],
    events: events().slice(0, 1),
    beforePicture: null,
    scannedBefore: [],
    warnings: [],
    advice: {
      verdict: "not-decidable",
      headline: "cannot be decided yet",
      sheetNow: "not-in-water",
      sheetText: "dry, out of any water",
      reasons: [],
      limits: { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 },
      riskOfExceeding: {},
      upperDeltaE00: {},
      notShown: [],
      mustDo: [],
      wouldChangeIt: [],
    },
  });
}
