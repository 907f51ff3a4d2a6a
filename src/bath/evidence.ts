import type { Limits } from "../results/advice.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Blot } from "./palette.ts";

export type { Limits };

/** One ink of the cover, as the user knows it before the bath. */
export interface EvidenceInk {
  readonly id: string;
  /** CIELAB D50 before washing. */
  readonly lab: Triple;
  /** Solid-equivalent printed area, both faces if both carry it. */
  readonly areaCm2: number;
  readonly blot: Blot;
  /** Area of the regions whose blotter stained; null where nobody says. */
  readonly stainedAreaCm2: number | null;
}

/** Conditions of one jar photo's bath. */
export interface EvidenceBath {
  readonly kind: "wash" | "rinse";
  /** null: not stated, which counts as holding some. */
  readonly surfactant: boolean | null;
  readonly minutes: number | null;
  readonly temperatureC: number | null;
  readonly ph: number | null;
  /** null: not stated, so nothing can be said of amounts. */
  readonly volumeMl: number | null;
  /** A second photo of the bath before it, after settling or filtering; not another bath. */
  readonly settled: boolean;
}

/** What is known beside the jar photos. */
export interface Evidence {
  /** Volume of the baths where an entry gives none of its own; null: not stated. */
  readonly bathVolumeMl: number | null;
  readonly wetSheetMl: number;
  readonly paperLab: Triple;
  readonly inks: readonly EvidenceInk[];
  /** One a jar photo, in order; empty where the file says nothing of the baths. */
  readonly baths: readonly EvidenceBath[];
  readonly unprintedStrip: { readonly file: string; readonly blank: string } | null;
  readonly limits: Limits;
}
