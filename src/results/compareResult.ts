import type { Box } from "../grid/box.ts";
import type { Point } from "../numeric/point.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Warning } from "../errors.ts";

/** Whether a frame shows dry, damp or wet paper: never compared with one another. */
export type SheetState = "dry" | "damp" | "wet";

export interface CardReport {
  readonly name: string;
  readonly cornersPixels: readonly Point[];
  readonly matchResidual: number;
  readonly model: string;
  /** null where the card's own values were never measured. */
  readonly leaveOneOut: {
    readonly mean: number;
    readonly p95: number;
    readonly max: number;
  } | null;
  readonly droppedPatches: readonly string[];
}

export interface ScanReport {
  readonly file: string;
  readonly sha256: string;
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly dpi: number | null;
  readonly bitDepth: number;
  readonly profile: string | null;
  readonly state: SheetState;
  readonly card: CardReport;
}

export interface RegistrationReport {
  readonly accepted: true;
  readonly inliers: number;
  readonly scaleX: number;
  readonly scaleY: number;
  readonly rotationDegrees: number;
  readonly residualP95Pixels: number;
  readonly maskedShare: number;
  /** dE00 p95 of the before scan against itself displaced by the residual: what misplacement alone could feign. */
  readonly selfConsistencyDeltaE00: number | null;
  readonly points: readonly { readonly before: Point; readonly after: Point }[];
}

/** What was measured on one area. Lab is CIELAB D50 of the mean linear-light colour; differences are CIEDE2000. */
export interface AreaReport {
  readonly areaCm2: number;
  readonly pixels: number;
  readonly centroidPixels: Point;
  readonly labBefore: Triple | null;
  readonly labAfter: Triple | null;
  readonly deltaE00: number | null;
  readonly deltaE00Low: number | null;
  readonly deltaE00High: number | null;
  /** The smallest change that may be claimed here. */
  readonly floorDeltaE00: number | null;
  readonly deltaL: number | null;
  readonly deltaC: number | null;
  readonly deltaH: number | null;
  readonly pixelDeltaE00: { readonly median: number | null; readonly p95: number | null };
  /** ISO 105-A05, from CIELAB D50: a grade as common language, not a test after that standard. */
  readonly greyScaleStep: number | null;
}

export interface RegionReport extends AreaReport {
  readonly id: string;
  readonly boxPixels: Box;
}

export type PaperVerdict = "lighter" | "darker" | "no-change-shown" | "uncertain";

export type PaperSource = "bare" | "edge" | "inside-face" | "given" | "estimated" | "none";

export interface PaperReport extends AreaReport {
  /** Where the paper's colour comes from. `estimated` and `none`: it was not measured, and no loss of ink can be concluded. */
  readonly source: PaperSource;
  /** How far its colour may be from that of the bare paper, one standard deviation; null where nothing is known. */
  readonly sigmaDeltaE00: number | null;
  readonly verdict: PaperVerdict;
  readonly deltaA: number | null;
  readonly deltaB: number | null;
  /** ASTM E313 estimate, see `yellownessOfLab`. */
  readonly yellownessBefore: number | null;
  readonly yellownessAfter: number | null;
}

export type InkVerdict = "ink-lost" | "changed" | "no-change-shown" | "uncertain";

export interface InkReport extends AreaReport {
  readonly id: string;
  readonly kind: "ink" | "overprint" | "black";
  readonly label: number;
  readonly paperPartDeltaE00: number | null;
  readonly inkPartDeltaE00: number | null;
  readonly inkPartLow: number | null;
  readonly inkPartHigh: number | null;
  readonly verdict: InkVerdict;
  readonly regions: readonly RegionReport[];
}

export interface TideLine {
  readonly boxPixels: Box;
  readonly widthMm: number;
  readonly deltaB: number;
}

export interface Bleed {
  readonly ink: string;
  readonly boxPixels: Box;
  readonly reachMm: number;
}

export interface DamageReport {
  readonly tideLines: readonly TideLine[];
  readonly bleeds: readonly Bleed[];
  readonly unevenCleaning: number | null;
  readonly dullBlacks: number | null;
}

/** The object printed by `compare --json`. */
export interface CompareResult {
  readonly schema: "lastrinse.compare";
  readonly version: 1;
  readonly colour: {
    readonly illuminant: "D50";
    readonly observer: "2deg";
    readonly difference: "CIEDE2000";
  };
  readonly before: ScanReport;
  readonly after: ScanReport;
  readonly registration: RegistrationReport;
  readonly paper: PaperReport | null;
  readonly inks: readonly InkReport[];
  readonly labels: { readonly file: "inks.png"; readonly paper: 255 };
  readonly damage: DamageReport;
  readonly warnings: readonly Warning[];
}
