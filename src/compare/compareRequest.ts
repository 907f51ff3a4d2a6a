import type { KnownPaper } from "../regions/knownPaper.ts";
import type { Card } from "../card/card.ts";
import type { Corners } from "../card/parseCorners.ts";
import type { Detail } from "../regions/findRegions.ts";
import type { InkCorrections } from "../regions/inkCorrections.ts";
import type { PlateNames } from "./plateNames.ts";
import type { SolidPlace } from "./pickedInks.ts";
import type { SheetState } from "../results/compareResult.ts";

export interface SideRequest {
  readonly file: string;
  readonly page?: number | undefined;
  readonly corners?: Corners | undefined;
  readonly cardScan?: string | undefined;
  /** Left out: dry is assumed, with a warning. */
  readonly state?: SheetState | undefined;
}

export interface CompareRequest {
  readonly before: SideRequest;
  readonly after: SideRequest;
  readonly card: Card;
  /** Of both scans; left out: from the files, else from the card. */
  readonly dpi?: number | undefined;
  readonly detail?: Detail | undefined;
  readonly inks?: InkCorrections | undefined;
  /** Bare paper of the before scan, where it is known from outside the art. */
  readonly paper?: KnownPaper | undefined;
  /** Whether the printing inks behind the colours are told apart. Default auto: where the sheet shows enough print. */
  readonly plates?: "auto" | "none" | undefined;
  /** Places of the before scan that are an ink's solid. */
  readonly solids?: readonly SolidPlace[] | undefined;
  /** The inks that the press has. Default: the usual four. */
  readonly plateNames?: PlateNames | undefined;
  readonly strict?: boolean | undefined;
  readonly seed?: number | undefined;
  /** Threads that share a stage; the result doesn't depend on it. Default 2. */
  readonly workers?: number | undefined;
}
