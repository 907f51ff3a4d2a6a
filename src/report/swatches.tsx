import type { VNode } from "preact";
import { labD50ToSrgb } from "../colour/srgb.ts";
import type { Triple } from "../numeric/triple.ts";

function css(lab: Triple): string {
  return `rgb(${labD50ToSrgb(lab)
    .map((code) => Math.round(255 * code))
    .join(" ")})`;
}

function inWords(lab: Triple): string {
  return `L* ${lab[0].toFixed(0)} a* ${lab[1].toFixed(0)} b* ${lab[2].toFixed(0)}`;
}

/** Two colours edge to edge, before on the left: as near as this screen can show them. */
export function Swatches({
  before,
  after,
}: {
  readonly before: Triple | null;
  readonly after: Triple | null;
}): VNode | null {
  if (before === null || after === null) return null;
  return (
    <span class="swatches">
      <svg
        width="56"
        height="24"
        viewBox="0 0 56 24"
        role="img"
        aria-label={`before ${inWords(before)}, after ${inWords(after)}`}
      >
        <rect width="28" height="24" fill={css(before)} />
        <rect x="28" width="28" height="24" fill={css(after)} />
      </svg>
    </span>
  );
}
