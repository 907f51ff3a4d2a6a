import type { Limits } from "../bath/evidence.ts";
import type { Blot } from "../bath/palette.ts";

/** What a bath or a blotter test was like, as far as it bears on strength. null: not stated. */
export interface Liquid {
  readonly surfactant: boolean | null;
  readonly ph: number | null;
  readonly temperatureC: number | null;
  readonly minutes: number | null;
}

/** Plain means without surfactant, everywhere; what nobody stated is not plain. */
export function isPlain({ surfactant }: Pick<Liquid, "surfactant">): boolean {
  return surfactant === false;
}

export interface BlotTest {
  readonly result: Blot;
  /** null: made in the very liquid of the baths, as an evidence file states. */
  readonly liquid: Liquid | null;
  /** Place in the course of the treatment; a later event has a larger one. */
  readonly order: number;
  /** It was withdrawn and had not been fast: it counts as one without a result. */
  readonly takenBack?: boolean;
}

/** An ink was seen to bleed: at the tray, as offset on the support, or by a rising series of baths. */
export interface BleedReport {
  readonly how: "seen" | "offset" | "rising";
  readonly order: number;
}

/** Predicted fade of one ink after one more bath, as the risk rule needs it. */
export interface FadeForecast {
  /** dE00 at the middle amounts of all baths and the next, bench factor included. */
  readonly medianDeltaE00: number;
  readonly benchLogSd: number;
  readonly shareLogSd: number;
  /** Share of the next bath in the total. */
  readonly nextShare: number;
  /** Log-sd of the next bath: 0.65 after one bath seen, 0.42 after more. */
  readonly nextLogSd: number;
}

export interface InkState {
  readonly id: string;
  readonly tests: readonly BlotTest[];
  readonly bleeding: readonly BleedReport[];
  /** The jar can't be explained without this ink although its blotter was fast: the test counts for nothing. */
  readonly contradicted: boolean;
  /** null: nothing can be said (a bath unread, no volume, no area, no colour). */
  readonly fade: FadeForecast | null;
  /** Why nothing can be said, where it is another ink's doing; in words. */
  readonly whyNoFade?: string | null;
  /** What the bath can't show of this ink, in words; null where nothing of the kind is feared. */
  readonly hiddenLoss: string | null;
}

export interface BathState extends Liquid {
  readonly kind: "wash" | "rinse";
  readonly volumeMl: number | null;
  /** Id of the record's event; null from a jar alone. */
  readonly event: string | null;
  /** Whether its photo gave figures that can be trusted. */
  readonly usable: boolean;
}

/** Everything the advice rests on, as plain values. */
export interface TreatmentState {
  readonly inks: readonly InkState[];
  /** In order; settled second photos are no baths. */
  readonly baths: readonly BathState[];
  /** The bath being considered; null: the same as the last one (before the first: as tested). */
  readonly next: Liquid | null;
  readonly limits: Limits;
  /** Soil expected from the next bath and removed so far, same unit; null: not known. */
  readonly gain: {
    readonly next: number;
    readonly soFar: number;
    /** Less than this can't be measured. */
    readonly noise: number;
  } | null;
  /** Names of events that can't be read: what they said is not known. */
  readonly damagedEvents?: readonly string[];
  /** Names of the bench's notes that can't be read: how its fades compare with the model is not known. */
  readonly unreadableNotes?: readonly string[];
  /** The washed sheet was scanned dry after its last bath. */
  readonly finished?: boolean;
  /** The card of the before scan is the printed strip. */
  readonly stripCard?: boolean;
}
