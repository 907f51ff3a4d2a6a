import { bell, type Spectrum, spectrumOf } from "./bands.ts";

/**
 * Absorptivity of what a bath may hold, peak 1. Peaks stand where the dye literature puts them for the period's inks; the widths are ours,
 * chosen so that the bands are as broad as those of such dyes in solution.
 */
export const DYES = {
  red: peakOne((nm) => bell(nm, 505, 42, 30) + 0.48 * bell(nm, 540, 22, 20)),
  pink: peakOne((nm) => bell(nm, 553, 16, 12) + 0.3 * bell(nm, 520, 22, 16)),
  blue: peakOne((nm) => bell(nm, 630, 34, 20) + 0.32 * bell(nm, 585, 28, 24)),
  violet: peakOne((nm) => bell(nm, 586, 30, 22) + 0.3 * bell(nm, 540, 26, 22)),
  yellow: peakOne((nm) => bell(nm, 428, 36, 26)),
} as const;

function peakOne(value: (nm: number) => number): Spectrum {
  const spectrum = spectrumOf(value);
  const peak = Math.max(...spectrum);
  return spectrum.map((at) => at / peak);
}

export type Dye = keyof typeof DYES;

/** Brown soluble matter: falls exponentially with wavelength; 1 at 450 nm. */
export function soil(slopePerNm = 0.014): Spectrum {
  return spectrumOf((nm) => Math.exp(-slopePerNm * (nm - 450)));
}

/** Particles: how much they scatter, into where. Extinction per FNU is that of formazin, 0.002 decades per cm and FNU at 550 nm. */
export interface Particles {
  /** Natural extinction by scattering at 550 nm, per cm and FNU. */
  readonly scatteringPerFnu: number;
  /** Scattering goes as (nm / 550) ^ -exponent. */
  readonly exponent: number;
  /** Share that stays within a few degrees of its way. */
  readonly forwardShare: number;
  /** Veil per natural scattering, in units of the lit white stripe. */
  readonly veil: number;
  /** Natural absorption per cm and FNU, flat. */
  readonly absorptionPerFnu: number;
}

const FORMAZIN_SCATTERING = 0.002 * Math.LN10;

export const PARTICLES = {
  formazin: {
    scatteringPerFnu: FORMAZIN_SCATTERING,
    exponent: 1,
    forwardShare: 0.6,
    veil: 0.16,
    absorptionPerFnu: 0,
  },
  silt: {
    scatteringPerFnu: FORMAZIN_SCATTERING,
    exponent: 0.4,
    forwardShare: 0.65,
    veil: 0.2,
    absorptionPerFnu: 0,
  },
  carbonate: {
    scatteringPerFnu: FORMAZIN_SCATTERING,
    exponent: 0.3,
    forwardShare: 0.75,
    veil: 0.22,
    absorptionPerFnu: 0,
  },
} as const satisfies Record<string, Particles>;

/** A liquid in the jar. Amounts are decadic absorbances per cm at the peak. */
export interface Liquid {
  readonly dyes?: Partial<Record<Dye, number>>;
  /** At 450 nm. */
  readonly soil?: number;
  readonly soilSlopePerNm?: number;
  readonly fnu?: number;
  readonly particles?: Particles;
}

/** The clear liquid of a fresh bath. */
export const FRESH: Liquid = {};

/** Natural absorption and scattering per cm in each band. */
export function opticsOf(liquid: Liquid): {
  readonly absorption: Spectrum;
  readonly scattering: Spectrum;
  readonly particles: Particles;
} {
  const particles = liquid.particles ?? PARTICLES.formazin;
  const fnu = liquid.fnu ?? 0;
  const brown = soil(liquid.soilSlopePerNm);
  const dyes = Object.entries(liquid.dyes ?? {}) as [Dye, number][];
  const absorption = spectrumOf((nm) => {
    const band = Math.round((nm - 400) / 10);
    let decadic = (liquid.soil ?? 0) * brown[band];
    for (const [dye, amount] of dyes) decadic += amount * DYES[dye][band];
    return Math.LN10 * decadic + fnu * particles.absorptionPerFnu;
  });
  const scattering = spectrumOf(
    (nm) => fnu * particles.scatteringPerFnu * (nm / 550) ** -particles.exponent,
  );
  return { absorption, scattering, particles };
}
