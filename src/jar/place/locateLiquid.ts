import type { Box } from "../../grid/box.ts";
import { JAR_BACKING } from "../../../calibration/jar-backing.ts";
import { LastrinseError } from "../../errors.ts";
import { leastSquares } from "../../numeric/leastSquares.ts";
import { median } from "../../numeric/statistics.ts";
import { jarEdges, type JarEdges } from "./jarEdges.ts";
import type { JarShape, Station } from "./station.ts";
import { BANDS, type StripeMap } from "./stripeMap.ts";

/** Blank and bath may see the jar this far apart: the camera stood elsewhere, or the jar did. */
const LARGEST_EDGE_SHIFT_MM = 4;

/** Glass of a wall seen edge-on, and what its refraction spoils. */
const WALL_MM = 3;
const MARGIN_MM = 6;

/** Room between jar and side stripes, and how much of them is read. */
const BESIDE_GAP_MM = 3;
const BESIDE_WIDTH_MM = 40;
const LEAST_BESIDE_MM = 8;

/** Bands of one liquid agree within this in the log of the stripes' strength; plus a share of the attenuation itself. */
const SAME_LIQUID = 0.03;
const SAME_LIQUID_SHARE = 0.08;

/** Whole wide periods of liquid needed. */
const FEWEST_BANDS = 2;

/** Refraction moves the ends of a group of stripes; this much is left out there. */
const ZONE_END_MM = 1.5;

/** Fine stripes through the jar are weakened by its own blur as well. */
const NARROW_LIQUID = 0.08;

/** Of one photo: strength of the stripes through the jar against beside it, log, per channel and band. */
type ThroughJar = readonly (readonly number[])[];

/**
 * Finds the liquid before the printed backing and describes the set-up as a station, in pixels of the straightened photos.
 * The jar shows by its edges in the strength of the stripes; the liquid is the lowest run of bands that look alike through it, in
 * the blank and in the bath both. Air above it, the meniscus and the jar's foot look otherwise.
 * @param file The spent bath, named in messages.
 * @throws {LastrinseError} `station-not-found` where jar or liquid can't be told for certain, `station-moved` where the two photos
 * show the jar in different places.
 */
export function locateLiquid(
  blank: StripeMap,
  sample: StripeMap,
  pixelsPerMm: number,
  shape: JarShape,
  file: string,
): Station {
  const edges = edgesInBoth(blank, sample, file);
  const run = liquidRun(throughJar(blank, edges), throughJar(sample, edges), edges, file);
  return stationOf(edges, run, pixelsPerMm, shape, file);
}

function refuse(file: string, received: string, remedy: string): never {
  throw new LastrinseError(
    "station-not-found",
    `Expected a jar of liquid before the printed backing in ${file}, received ${received}.`,
    { remedy, input: file },
  );
}

const STATION_FILE = "or give a station file that says where the liquid is";

function edgesInBoth(blank: StripeMap, sample: StripeMap, file: string): JarEdges {
  const inBlank = jarEdges(blank);
  const inSample = jarEdges(sample);
  const edges = inBlank ?? inSample;
  if (edges === null)
    return refuse(
      file,
      "a backing without the edges of a jar",
      `Put the jar before the middle of the stripes, with stripes past both its sides; ${STATION_FILE}.`,
    );
  if (inBlank && inSample) {
    const shift = Math.max(
      Math.abs(inBlank.leftMm - inSample.leftMm),
      Math.abs(inBlank.rightMm - inSample.rightMm),
    );
    if (shift > LARGEST_EDGE_SHIFT_MM)
      throw new LastrinseError(
        "station-moved",
        `Expected the jar in ${file} where it stands in the blank, received its edges ${shift.toFixed(0)} mm away (limit ${LARGEST_EDGE_SHIFT_MM} mm on the backing).`,
        {
          remedy:
            "Put jar and camera back where they were and photograph again, or photograph a new blank in this position.",
          input: file,
        },
      );
  }
  const { stripesLeftMm, stripesRightMm } = JAR_BACKING;
  const room = Math.min(edges.leftMm - stripesLeftMm, stripesRightMm - edges.rightMm);
  if (room < BESIDE_GAP_MM + LEAST_BESIDE_MM)
    return refuse(
      file,
      `stripes past one side of it for ${Math.max(0, room).toFixed(0)} mm only`,
      "Move the jar to the middle of the backing, so that 1 cm of stripes and more shows past both sides.",
    );
  return edges;
}

/** Stripes through the jar against those beside it: a parabola through the outer columns takes up uneven light. */
function throughJar(map: StripeMap, edges: JarEdges): ThroughJar {
  const inner = innerColumns(edges);
  return map.logStrength.map((bands) =>
    bands.map((profile) => {
      const rows: number[][] = [];
      const values: number[] = [];
      profile.forEach((value, i) => {
        const mm = map.leftMm + i + 0.5;
        const outside = mm < edges.leftMm - BESIDE_GAP_MM || mm > edges.rightMm + BESIDE_GAP_MM;
        const atEnds = i < 1 || i >= profile.length - 1;
        if (!outside || atEnds || Number.isNaN(value)) return;
        rows.push(basis(mm));
        values.push(value);
      });
      if (rows.length < 10) return NaN;
      const { solution } = leastSquares(rows, values);
      const expected = (mm: number): number =>
        basis(mm).reduce((sum, term, k) => sum + term * solution[k], 0);
      return median(
        Array.from(profile, (value, i) => {
          const mm = map.leftMm + i + 0.5;
          return mm > inner.from && mm < inner.to ? value - expected(mm) : NaN;
        }).filter((value) => !Number.isNaN(value)),
      );
    }),
  );
}

function basis(mm: number): number[] {
  const t = (mm - JAR_BACKING.widthMm / 2) / 100;
  return [1, t, t * t];
}

function innerColumns({ leftMm, rightMm }: JarEdges): { from: number; to: number } {
  const margin = Math.min(WALL_MM + MARGIN_MM, 0.3 * (rightMm - leftMm));
  return { from: leftMm + margin, to: rightMm - margin };
}

interface Run {
  readonly fromMm: number;
  readonly toMm: number;
  /** Wide bands of the run. */
  readonly bands: readonly number[];
}

/** The lowest run of wide bands that look alike; stretched over fine stripes that go with it. */
function liquidRun(blank: ThroughJar, sample: ThroughJar, edges: JarEdges, file: string): Run {
  const wide = BANDS.map((_, i) => i).filter((i) => BANDS[i].kind === "wide" && edges.bands[i]);
  const lost = (c: number, i: number): number => blank[c][i] - sample[c][i];
  const alike = (i: number, j: number): boolean =>
    Math.abs(blank[1][i] - blank[1][j]) <= SAME_LIQUID &&
    [0, 1, 2].every(
      (c) =>
        Math.abs(lost(c, i) - lost(c, j)) <= SAME_LIQUID + SAME_LIQUID_SHARE * Math.abs(lost(c, j)),
    );
  const neighbours = (i: number, j: number): boolean =>
    BANDS.slice(i + 1, j).every((band) => band.kind === "narrow");

  let run: number[] = [];
  for (const i of wide.slice().reverse()) {
    const goesOn =
      run.length > 0 && neighbours(i, run[run.length - 1]) && run.every((j) => alike(i, j));
    if (goesOn) run.push(i);
    else if (run.length >= FEWEST_BANDS) break;
    else run = [i];
  }
  if (run.length < FEWEST_BANDS)
    return refuse(
      file,
      "no two neighbouring wide stripes that look alike through it",
      `Fill the jar so that at least 60 mm of liquid stands before the stripes, keep foam off, photograph sharply; ${STATION_FILE}.`,
    );
  run.reverse();
  // What was passed over below must be the jar's foot. Liquid too low for two bands would leave the air above it as the run.
  const below = wide.filter((i) => i > run[run.length - 1]);
  const clearer = below.some(
    (i) =>
      blank[1][i] > blank[1][run[0]] + SAME_LIQUID ||
      [0, 1, 2].some((c) => lost(c, i) > lost(c, run[0]) + 2 * SAME_LIQUID),
  );
  if (clearer)
    return refuse(
      file,
      "liquid too low in it, or in layers",
      `Fill the jar so that at least 60 mm of liquid stands before the stripes, stir and wait two minutes; ${STATION_FILE}.`,
    );

  let first = run[0];
  let last = run[run.length - 1];
  const goesWith = (i: number): boolean =>
    BANDS[i]?.kind === "narrow" &&
    Math.abs(blank[1][i] - blank[1][run[0]]) <= NARROW_LIQUID &&
    [0, 1, 2].every(
      (c) => lost(c, i) >= (1 - 2 * SAME_LIQUID_SHARE) * lost(c, run[0]) - SAME_LIQUID,
    );
  while (goesWith(first - 1)) first--;
  while (goesWith(last + 1)) last++;
  return { fromMm: BANDS[first].fromMm, toMm: BANDS[last].toMm, bands: run };
}

function stationOf(
  edges: JarEdges,
  run: Run,
  pixelsPerMm: number,
  shape: JarShape,
  file: string,
): Station {
  const pixels = (mm: number): number => mm * pixelsPerMm - 0.5;
  const box = (left: number, top: number, right: number, bottom: number): Box => [
    pixels(left),
    pixels(top),
    (right - left) * pixelsPerMm,
    (bottom - top) * pixelsPerMm,
  ];
  const { zones, stripesLeftMm, stripesRightMm, widePeriodMm, narrowPeriodMm } = JAR_BACKING;
  const left = edges.leftMm + WALL_MM;
  const right = edges.rightMm - WALL_MM;

  const counts = zones.map((_, zone) => run.bands.filter((i) => BANDS[i].zone === zone).length);
  const zone = counts.indexOf(Math.max(...counts));
  const inZone = run.bands.filter((i) => BANDS[i].zone === zone);
  if (inZone.length < FEWEST_BANDS)
    return refuse(
      file,
      "too little liquid before any one group of wide stripes",
      `Fill the jar higher, or raise it; ${STATION_FILE}.`,
    );
  const top = BANDS[inZone[0]].fromMm;
  const bottom = BANDS[inZone[inZone.length - 1]].toMm;

  const narrow = zones
    .map(({ kind, fromMm, toMm }) => ({
      kind,
      fromMm: Math.max(fromMm, run.fromMm),
      toMm: Math.min(toMm, run.toMm),
      firstMm: fromMm,
    }))
    .filter(({ kind, fromMm, toMm }) => kind === "narrow" && toMm - fromMm >= 3 * narrowPeriodMm)
    .sort((a, b) => b.toMm - b.fromMm - (a.toMm - a.fromMm))
    .at(0);

  return {
    jar: shape.jar,
    pathCm: shape.insideMm / 10,
    passes: shape.passes,
    card: null,
    liquidBox: box(left, run.fromMm, right, run.toMm),
    stripes: {
      wide: {
        box: box(left, top + ZONE_END_MM, right, bottom - ZONE_END_MM),
        periodPixels: widePeriodMm * pixelsPerMm,
        firstWhiteY: pixels(top),
      },
      narrow: narrow
        ? {
            box: box(left, narrow.fromMm + ZONE_END_MM, right, narrow.toMm - ZONE_END_MM),
            periodPixels: narrowPeriodMm * pixelsPerMm,
            firstWhiteY: pixels(narrow.firstMm),
          }
        : null,
      besideLeft: box(
        Math.max(stripesLeftMm + 1, edges.leftMm - BESIDE_GAP_MM - BESIDE_WIDTH_MM),
        top,
        edges.leftMm - BESIDE_GAP_MM,
        bottom,
      ),
      besideRight: box(
        edges.rightMm + BESIDE_GAP_MM,
        top,
        Math.min(stripesRightMm - 1, edges.rightMm + BESIDE_GAP_MM + BESIDE_WIDTH_MM),
        bottom,
      ),
    },
  };
}
