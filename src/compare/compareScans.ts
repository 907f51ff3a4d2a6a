import type { SideRequest, CompareRequest } from "./compareRequest.ts";
import type { chooseCorrection } from "../calibrate/chooseCorrection.ts";
import { planesToLab } from "../calibrate/planesToLab.ts";
import type { Card } from "../card/card.ts";
import { referenceWarnings } from "../card/referenceWarnings.ts";
import { differenceMap } from "../change/differenceMap.ts";
import { warpPlanes } from "../grid/warpPlanes.ts";
import { LastrinseError, type Warning } from "../errors.ts";
import { type Progress, SILENT } from "../progress.ts";
import type { Planes } from "../grid/planes.ts";
import { refuseSamePicture } from "../raster/refuseSamePicture.ts";
import { mapGrid } from "../register/mapGrid.ts";
import { startVision } from "../vision/pool.ts";
import type { RegionMap } from "../regions/regionMap.ts";
import { inkPartMap } from "../change/inkPartMap.ts";
import { comparisonPictures, type ComparisonPictures } from "./comparisonPictures.ts";
import { damageApart } from "./damageApart.ts";
import { type Frame, openFrame } from "./openFrame.ts";
import { orderWarnings } from "./orderWarnings.ts";
import { paperWarnings } from "./paperWarnings.ts";
import { driftOfCard } from "./driftOfCard.ts";
import { namedInks, placesOfNames } from "./namedInks.ts";
import { pickedInks } from "./pickedInks.ts";
import { plateGrid } from "./plateGrid.ts";
import { NO_PLATES, platesOfPair } from "./platesOfPair.ts";
import { preparePair } from "./preparePair.ts";
import { reportAreas } from "./reportAreas.ts";
import { verdictsByPlates } from "./verdictsByPlates.ts";
import type { PlateTiles } from "../results/plateTiles.ts";
import type { CompareResult, ScanReport } from "../results/compareResult.ts";
import { measuredShareWarnings } from "./measuredShareWarnings.ts";
import { registrationEffect } from "./registrationEffect.ts";
import { selfConsistency } from "./selfConsistency.ts";
import { usableCells } from "./usableCells.ts";

/** A comparison: the result, its map, and its pictures. */
export interface Comparison {
  readonly result: CompareResult;
  readonly regions: RegionMap;
  /** dE00 a cell of the before lattice; NaN = not measured. */
  readonly difference: Float32Array;
  readonly before: Planes;
  /** Loss of each printing ink by place; null where plates were not separated. */
  readonly plateTiles: PlateTiles | null;
  /** Being drawn. */
  readonly pictures: Promise<ComparisonPictures>;
}

/** A map with more cells than this belongs to a poster. */
const LARGE_CELLS = 5e6;

function stateWarnings(request: CompareRequest): Warning[] {
  const assumed = [
    ...(request.before.state === undefined ? ["before"] : []),
    ...(request.after.state === undefined ? ["after"] : []),
  ];
  if (assumed.length === 0) return [];
  const message = `The ${assumed.join(" and the ")} scan is taken to show dry paper.`;
  const remedy = "Say so with --before-state dry --after-state dry.";
  if (request.strict === true)
    throw new LastrinseError("wrong-use", message, {
      remedy,
      input: request[assumed[0] as "before"].file,
    });
  return [{ code: "state-assumed", message: `${message} ${remedy}` }];
}

function refuseOtherState({ before, after }: CompareRequest): void {
  const [first, second] = [before.state ?? "dry", after.state ?? "dry"];
  if (first === second) return;
  throw new LastrinseError(
    "frames-differ",
    `Expected two scans of the same state, received ${first} paper before and ${second} paper after: wet paper is darker by several L*, which would pass for a change.`,
    {
      remedy: "Scan the cover again when it is dry and has rested at room climate for half a day.",
      input: after.file,
    },
  );
}

/**
 * Compares two scans of one cover: calibrates both against the card, finds the inks of the first, lays the second over it and
 * measures every area.
 * @throws {LastrinseError} Whatever makes a figure untrustworthy: see the codes of each stage.
 */
export async function compareScans(
  request: CompareRequest,
  progress: Progress = SILENT,
): Promise<Comparison> {
  const { card, strict = false } = request;
  refuseOtherState(request);
  const assumptions = stateWarnings(request);

  progress.report("reading the scans", 0);
  startVision(request.workers);
  const opened = await Promise.allSettled([
    openFrame({ ...request.before, card, strict }),
    openFrame({ ...request.after, card, strict }),
  ]);
  try {
    const [before, after] = opened.map((side) => {
      if (side.status === "rejected") throw side.reason;
      return side.value;
    });
    refuseSamePicture(
      { role: "the before scan", page: request.before.page, ...pictureOf(before) },
      { role: "the after scan", page: request.after.page, ...pictureOf(after) },
      "Give the scan made before washing first and the one made after it second; two pages of one file are named with --before-page and --after-page.",
    );
    return await compareFrames(before, after, request, assumptions, progress);
  } finally {
    for (const side of opened) if (side.status === "fulfilled") side.value.pixels.release();
  }
}

function pictureOf({ info: { file }, pixels }: Frame) {
  return { file, pixels };
}

async function compareFrames(
  before: Frame,
  after: Frame,
  request: CompareRequest,
  assumptions: readonly Warning[],
  progress: Progress,
): Promise<Comparison> {
  const prepared = await preparePair(before, after, request, progress);
  const { scale, choice, corrections, floor, mmPerCell, registration, regions, light } = prepared;
  const { beforePlanes, afterPlanes, smoothBefore } = prepared;
  const { width, height, stepX, stepY } = beforePlanes;

  progress.report("measuring", 0.8);
  const map = mapGrid(registration.map, beforePlanes);
  const smoothAfter = warpPlanes(prepared.smoothed, beforePlanes, map);
  const labBefore = planesToLab(smoothBefore, corrections[0]);
  const labAfter = planesToLab(smoothAfter, corrections[1]);
  const change = { before: labBefore, after: labAfter, width, height, mmPerCell, stepX, stepY };
  const { usable, weights, measuredShare } = usableCells(
    { before: smoothBefore, after: smoothAfter, corrections, floor, lightShare: light.share },
    regions,
    registrationEffect(change, map.sigmaMm, regions.sheet.mask),
  );
  const difference = differenceMap(labBefore, labAfter, usable);
  const afterOnBefore = warpPlanes(afterPlanes, beforePlanes, map);
  const { surface, ...areas } = reportAreas(
    {
      before: beforePlanes,
      after: afterOnBefore,
      corrections,
      difference,
      floor,
      lightShare: light.share,
      mmPerCell,
      view: change,
      sigmaMm: map.sigmaMm,
      weights,
    },
    regions,
    usable,
  );
  const separated =
    request.plates === "none"
      ? Promise.resolve(NO_PLATES)
      : platesOfPair(
          plateGrid({
            before: beforePlanes,
            after: afterOnBefore,
            corrections,
            usable,
            box: regions.sheet.box,
            mmPerCell,
          }),
          {
            inks: namedInks(
              pickedInks(
                placesOfNames(request.plateNames, request.solids ?? []),
                beforePlanes,
                regions.sheet.mask,
                corrections[0],
                mmPerCell,
              ),
              request.plateNames,
            ),
            driftSd: driftOfCard([before, after], request.card, choice),
          },
          request.strict === true,
        );
  // A failure is met where the plates are used.
  separated.catch(() => undefined);
  const damage = damageApart(
    change,
    { labels: regions.labels, cores: regions.cores, sheet: { mask: regions.sheet.mask } },
    areas,
  );
  // A failure is met where the report is used.
  damage.catch(() => undefined);
  // Posters one thing after the other: both at once need the memory of both.
  if (regions.labels.length > LARGE_CELLS) await damage;
  const { labBefore: paperBefore, labAfter: paperAfter } = areas.paper;
  const pictures = comparisonPictures({
    areas,
    labels: regions.labels,
    difference,
    inkPart:
      paperBefore === null || paperAfter === null
        ? null
        : inkPartMap(change, difference, { before: paperBefore, after: paperAfter, surface }),
    sheet: regions.sheet.mask,
    before: prepared.pictureBefore,
    after: afterOnBefore,
    correctionAfter: corrections[1],
    dpi: scale.before / stepX,
  });
  // A failure is met where the pictures are used.
  pictures.catch(() => undefined);
  const residual = registration.report.residualP95Pixels;
  const { plates, plateModel, warnings: plateNotes, tiles } = await separated;
  const result: CompareResult = {
    schema: "lastrinse.compare",
    version: 1,
    colour: { illuminant: "D50", observer: "2deg", difference: "CIEDE2000" },
    before: reportScan(before, scale.before, { ...request.before, card: request.card }, choice, 0),
    after: reportScan(after, scale.after, { ...request.after, card: request.card }, choice, 1),
    registration: {
      ...registration.report,
      measuredShare,
      selfConsistencyDeltaE00: selfConsistency(labBefore, width, residual / stepX, regions.cores),
    },
    ...areas,
    inks: verdictsByPlates(areas.inks, areas.paper, plates),
    plates,
    plateModel,
    labels: { file: "inks.png", paper: 255 },
    damage: await damage,
    warnings: [
      ...assumptions,
      ...before.warnings,
      ...after.warnings,
      ...scale.warnings,
      ...referenceWarnings(request.card),
      ...choice.warnings,
      ...light.warnings,
      ...regions.sheet.notes.map((message): Warning => ({ code: "sheet-outline", message })),
      ...registration.warnings,
      ...paperWarnings(areas.paper.labAfter !== null, regions.sought),
      ...measuredShareWarnings(areas.inks),
      ...plateNotes,
      ...orderWarnings(before.info, after.info, areas.paper, areas.inks),
    ],
  };
  progress.report("done", 1);
  return { result, regions, difference, before: beforePlanes, plateTiles: tiles, pictures };
}

function reportScan(
  frame: Frame,
  dpi: number,
  { state = "dry", card }: SideRequest & { readonly card: Card },
  choice: ReturnType<typeof chooseCorrection>,
  index: number,
): ScanReport {
  const { file, sha256, widthPixels, heightPixels, bitDepth, profile } = frame.info;
  const { leaveOneOut } = choice.frames[index];
  return {
    file,
    sha256,
    widthPixels,
    heightPixels,
    dpi,
    bitDepth,
    profile,
    state,
    card: {
      name: card.name,
      cornersPixels: frame.placed.corners,
      matchResidual: frame.placed.matchResidual,
      model: choice.model,
      leaveOneOut:
        leaveOneOut === null
          ? null
          : { mean: leaveOneOut.mean, p95: leaveOneOut.p95, max: leaveOneOut.max },
      droppedPatches: choice.droppedPatches.map(({ name }) => name),
    },
  };
}
