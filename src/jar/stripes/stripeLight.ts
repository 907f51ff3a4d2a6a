import type { Triple } from "../../numeric/triple.ts";
import { besideAt } from "./besideAt.ts";
import type { StripeLight } from "../optics/liquidOptics.ts";
import { perChannel } from "../optics/perChannel.ts";
import type { StripeReading } from "./stripeReading.ts";

/**
 * Light of the stripes in units of the white stripe beside the jar, mixed into bands.
 * @param flare Light that is added everywhere, R G B: no part of the black stripes.
 * @param mix Takes R G B, white = 1, to three bands.
 */
export function stripeLight(
  reading: StripeReading,
  flare: Triple,
  mix: (linear: Triple) => Triple,
): StripeLight[] {
  const { wide, narrow } = reading;
  const beside = besideAt(reading, wide.x, wide.y);
  const inWhites = (light: Triple, white: Triple): Triple =>
    mix(perChannel((c) => light[c] / white[c]));
  const wideLight = inWhites(wide.contrast, beside.white);
  const wideBeside = inWhites(beside.contrast, beside.white);
  // The black stripe's own light goes with the contrast: rho = black / contrast of the stripes beside the jar.
  const veil = inWhites(
    perChannel((c) => {
      const rho = (beside.white[c] - beside.contrast[c] - flare[c]) / beside.contrast[c];
      return wide.black[c] - rho * wide.contrast[c];
    }),
    beside.white,
  );
  const besideNarrow = narrow && besideAt(reading, narrow.x, narrow.y);
  const none: Triple = [NaN, NaN, NaN];
  const narrowLight = narrow && besideNarrow ? inWhites(narrow.contrast, besideNarrow.white) : none;
  const narrowBeside = besideNarrow ? inWhites(besideNarrow.contrast, besideNarrow.white) : none;
  return [0, 1, 2].map((c) => ({
    wide: wideLight[c],
    wideBeside: wideBeside[c],
    narrow: narrowLight[c],
    narrowBeside: narrowBeside[c],
    veil: veil[c],
  }));
}
