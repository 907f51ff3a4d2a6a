import type { Reason } from "./advice.ts";
import { reason } from "./findings/findings.ts";
import { limitShare, shareBeside } from "./toldApart.ts";
import type { TreatmentState } from "./treatmentState.ts";

type GainReason =
  | { readonly against: true; readonly reason: Reason }
  /** null: before the first bath there is nothing to say. */
  | { readonly against: false; readonly reason: Reason | null };

/** What another bath would win, and whether it is enough. */
export function gainReason({ gain, limits, baths }: TreatmentState): GainReason {
  if (gain === null)
    return baths.length === 0
      ? { against: false, reason: null }
      : {
          against: true,
          reason: reason("gain-not-known", "What another bath would win is not known."),
        };
  const least = Math.max(limits.minGain * gain.soFar, gain.noise);
  const enough = gain.next >= least;
  if (!(gain.soFar > 0))
    return enough
      ? { against: false, reason: null }
      : {
          against: true,
          reason: reason("gain-below-least", "No soil has come out that could be measured.", {
            value: 0,
            limit: limits.minGain,
          }),
        };
  const share = gain.next / gain.soFar;
  const leastShare = least / gain.soFar;
  const about = { value: share, limit: limits.minGain };
  const brings = `Another bath would bring about ${shareBeside(share, leastShare)} of the soil removed so far`;
  return enough
    ? { against: false, reason: reason("gain-enough", `${brings}.`, about) }
    : {
        against: true,
        reason: reason(
          "gain-below-least",
          `${brings} (least wanted: ${limitShare(Number(leastShare.toFixed(4)))}).`,
          about,
        ),
      };
}
