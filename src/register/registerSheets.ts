import type { Point } from "../numeric/point.ts";
import type { Warning } from "../errors.ts";
import { multiply3 } from "../numeric/matrix3.ts";
import { affineStart } from "./affineStart.ts";
import { agreementOf, agreementWarnings, checkAgreement } from "./agreement.ts";
import { convexHull } from "../grid/convexHull.ts";
import { frameOf, MM_PER_INCH, throughHomography, type SheetFrame } from "./sheetFrame.ts";
import { LEAST_SHOWN_SHARE, LEAST_TRUSTED_NODES, TRUSTED, USED } from "./gates.ts";
import { mapPoint } from "./mapPoint.ts";
import type { NodeField } from "./nodeField.ts";
import { nodeLattice, nodePlace, nodesOnSheet } from "./nodeLattice.ts";
import { passesFor } from "./passes.ts";
import { insidePolygon } from "../grid/polygon.ts";
import { refineMap } from "./refineMap.ts";
import type { FrameGeometry, Registration } from "./registration.ts";
import { percent, registrationFailed } from "./registrationFailed.ts";
import { positionSigma, radialQuantile } from "./positionSigma.ts";
import type { SheetImage } from "./sheetImage.ts";
import type { SheetRegion } from "./sheetRegion.ts";
import { spreadNodes } from "./spreadNodes.ts";

export interface RegisterOptions {
  /** Outline of the sheet in the before frame, full pixels; a box is four corners. Default: it may fill the frame. */
  readonly sheetOutline?: readonly Point[] | undefined;
  /** Polygons in full pixels that are not the sheet: the card, a ruler. They may lie elsewhere in the other frame. */
  readonly excludedBefore?: readonly (readonly Point[])[] | undefined;
  readonly excludedAfter?: readonly (readonly Point[])[] | undefined;
  /** Any integer; the same one gives the same map. Default DEFAULT_SEED. */
  readonly seed?: number | undefined;
  /** Threads that share a pass; the map doesn't depend on it. Default 2. */
  readonly workers?: number | undefined;
  /** The after file, named in errors. */
  readonly input?: string | undefined;
  /** Called with the share of the work done, 0..1. */
  readonly onProgress?: ((share: number) => void) | undefined;
}

/** Fixed, so that a pair gives the same figures every day. */
export const DEFAULT_SEED = 1;

const SLANTED: Warning = {
  code: "slanted-frames",
  message:
    "The sheet was photographed at a slant at least once: it was laid straight by its own print, and how much it grew or shrank " +
    "can't be told apart from the slant.",
};

/** Share of the time until the features are matched. */
const COARSE_SHARE = 0.3;

/**
 * Finds where each place of the before sheet lies in the after frame: an affine map from matched features first, then tile
 * correlation from coarse to fine. Works in mm, so the frames may differ in resolution; any turn is found.
 * @throws {LastrinseError} `registration-failed`: the pair can't be brought together; the message says why.
 * @throws {RangeError} A frame without a scale.
 */
export async function registerSheets(
  before: SheetImage,
  after: SheetImage,
  options: RegisterOptions = {},
): Promise<Registration> {
  const { seed = DEFAULT_SEED, onProgress = () => undefined, input } = options;
  const frames = { before: frameOf(before), after: frameOf(after) };
  let regions = {
    before: regionOf(frames.before, options.sheetOutline, options.excludedBefore),
    after: regionOf(frames.after, undefined, options.excludedAfter),
  };
  const passes = passesFor(Math.min(frames.before.dpi, frames.after.dpi));
  if (passes.length === 0)
    throw registrationFailed(
      "Expected scans of at least 48 dpi of the sheet.",
      "Scan the sheet at 300 dpi or more, before and after.",
      input,
    );

  const { affine, parts, inliers, matches, flatten } = await affineStart(
    { frame: frames.before, region: regions.before },
    { frame: frames.after, region: regions.after },
    seed,
    input,
  );
  if (flatten !== null) {
    frames.after = frameOf({ ...after, toMm: multiply3(flatten, frames.after.toMm) });
    regions = { ...regions, after: regionOf(frames.after, undefined, options.excludedAfter) };
  }
  onProgress(COARSE_SHARE);
  const start = nodeLattice(frames.before, regions.before.outline);
  // Nodes just off the sheet see its edge, which moves with it.
  const active = nodesOnSheet(start, frames.before, regions.before, start.mmPerCell);
  const { map, trust, information, measured } = await refineMap(
    frames,
    regions,
    { affine, field: start },
    active,
    {
      passes,
      onPass(done) {
        onProgress(COARSE_SHARE + ((1 - COARSE_SHARE) * done) / passes.length);
      },
      threads: options.workers,
    },
  );
  const agreement = agreementOf(measured, trust, passes[passes.length - 1].leastNcc);
  checkAgreement(agreement, input);

  const inside =
    regions.before.outline === null
      ? withinUsed(active, trust, start)
      : nodesOnSheet(start, frames.before, regions.before, 0);
  const sheetNodes = Array.from(inside.keys()).filter((node) => inside[node] !== 0);
  const trusted = agreement.trusted.filter((node) => inside[node] !== 0);
  const sigmaMm = positionSigma(map.field, information, measured, inside);
  const residualP95Mm = radialQuantile(
    trusted.map((node) => sigmaMm[node]),
    0.95,
  );
  const found = {
    inliers,
    inlierShare: inliers / matches,
    affine,
    scaleX: parts.scaleX,
    scaleY: parts.scaleY,
    rotationDegrees: parts.rotationDegrees,
    shear: parts.shear,
    residualP95Pixels: (residualP95Mm * frames.before.dpi) / MM_PER_INCH,
    maskedShare: 1 - sheetNodes.filter((node) => trust[node] > TRUSTED).length / sheetNodes.length,
    matchedShare: agreement.matchedShare,
    medianNcc: agreement.medianNcc,
    nodes: map.field,
    trust,
    sigmaMm,
    onSheet: withNeighbours(inside, active, start),
    before: geometryOf(frames.before),
    after: geometryOf(frames.after),
    warnings: [...agreementWarnings(agreement), ...(flatten === null ? [] : [SLANTED])],
  };
  checkShown(found, sheetNodes, frames.before, input);
  return {
    ...found,
    trustedPoints: spreadNodes(map.field, trust, trusted, LEAST_TRUSTED_NODES).map((node) => {
      const [x, y] = throughHomography(frames.before.fromMm, ...nodePlace(map.field, node));
      return { before: [x, y], after: mapPoint(found, x, y) };
    }),
  };
}

/** @throws {LastrinseError} `registration-failed`: too much of the sheet lies outside the after frame. */
function checkShown(
  map: Omit<Registration, "trustedPoints">,
  sheetNodes: readonly number[],
  { fromMm }: SheetFrame,
  input: string | undefined,
): void {
  const { widthPixels, heightPixels } = map.after;
  const shown = sheetNodes.filter((node) => {
    const [x, y] = mapPoint(map, ...throughHomography(fromMm, ...nodePlace(map.nodes, node)));
    return x >= -0.5 && y >= -0.5 && x < widthPixels - 0.5 && y < heightPixels - 0.5;
  });
  const share = shown.length / sheetNodes.length;
  if (!(share >= LEAST_SHOWN_SHARE))
    throw registrationFailed(
      `Expected the after scan to show the whole sheet; ${percent(share)} of it lies inside the frame (${percent(LEAST_SHOWN_SHARE)} is needed).`,
      "Scan the whole sheet again, with a margin of the bed around it.",
      input,
    );
}

function regionOf(
  frame: SheetFrame,
  outline: readonly Point[] | undefined,
  excluded: readonly (readonly Point[])[] = [],
): SheetRegion {
  const inMm = (polygon: readonly Point[]): Point[] =>
    polygon.map(([x, y]) => throughHomography(frame.toMm, x, y));
  return { outline: outline ? inMm(outline) : null, excluded: excluded.map(inMm) };
}

function geometryOf({ image, toMm, fromMm, flat }: SheetFrame): FrameGeometry {
  const { widthPixels, heightPixels } = image;
  return { widthPixels, heightPixels, toMm, fromMm, flat };
}

/** Where no outline was given, the sheet is what lies among the nodes that found something. */
function withinUsed(active: Uint8Array, trust: Float64Array, field: NodeField): Uint8Array {
  const used = Array.from(active.keys()).filter((node) => trust[node] > USED);
  const hull = convexHull(used.map((node) => nodePlace(field, node)));
  const corners = new Set(used);
  return active.map((on, node) =>
    on !== 0 && (corners.has(node) || insidePolygon(hull, ...nodePlace(field, node))) ? 1 : 0,
  );
}

/** Nodes on the sheet and the active ones beside them: every place of the sheet has some of them round it. */
function withNeighbours(
  inside: Uint8Array,
  active: Uint8Array,
  { width, height }: NodeField,
): Uint8Array {
  return active.map((on, node) => {
    const c = node % width;
    const r = (node - c) / width;
    for (let j = Math.max(0, r - 1); on !== 0 && j <= Math.min(height - 1, r + 1); j++)
      for (let i = Math.max(0, c - 1); i <= Math.min(width - 1, c + 1); i++)
        if (inside[j * width + i] !== 0) return 1;
    return 0;
  });
}
