import type { VNode } from "preact";
import {
  HEAT_MAP_COLOURS,
  HEAT_MAP_HATCHING,
  HEAT_MAP_MAX_DELTA_E00,
  heatMapColour,
} from "../picture/heatMap.ts";
import type { Hatching } from "../picture/hatching.ts";
import { cssOf, type Rgb } from "../picture/rgb.ts";

const STEPS = 50;
const TICKS = [0, 1, 2, 3, 4];

/** A key box of one tone. */
function FlatKey({ colour }: { readonly colour: Rgb }): VNode {
  return (
    <svg class="key" viewBox="0 0 14 12" aria-hidden="true">
      <rect x="0.5" y="0.5" width="13" height="11" fill={cssOf(colour)} stroke="#8a8373" />
    </svg>
  );
}

/** A key box: lines as in the map. */
function Key({ hatching: { ground, line, slant } }: { readonly hatching: Hatching }): VNode {
  const d =
    slant === "rising"
      ? "M1 7 7 1 M1 11.5 11.5 1 M6 11 13 4"
      : "M13 7 7 1 M13 11.5 2.5 1 M8 11 1 4";
  return (
    <svg class="key" viewBox="0 0 14 12" aria-hidden="true">
      <rect x="0.5" y="0.5" width="13" height="11" fill={cssOf(ground)} stroke="#8a8373" />
      <path d={d} stroke={cssOf(line)} stroke-width="1.6" />
    </svg>
  );
}

/** The fixed scale of the difference map. Its text is HTML, so that it grows with the reader's type. */
export function HeatMapLegend(): VNode {
  return (
    <div class="legend">
      <div class="legend-scale">
        <svg
          viewBox="0 0 50 3"
          preserveAspectRatio="none"
          role="img"
          aria-label={`Scale of both maps: 0 to ${String(HEAT_MAP_MAX_DELTA_E00)} dE00, from dark violet over green to yellow`}
        >
          {Array.from({ length: STEPS }, (_, i) => (
            <rect
              x={i}
              width={1.1}
              height={3}
              fill={cssOf(heatMapColour(((i + 0.5) / STEPS) * HEAT_MAP_MAX_DELTA_E00))}
            />
          ))}
        </svg>
        <div class="legend-ticks" aria-hidden="true">
          {TICKS.map((tick) => (
            <span>{tick}</span>
          ))}
        </div>
        <div>Difference in dE00 (CIEDE2000). The scale is the same in every report.</div>
      </div>
      <ul>
        <li>
          <FlatKey colour={HEAT_MAP_COLOURS.beyondScale} />
          more than {HEAT_MAP_MAX_DELTA_E00}: beyond the scale
        </li>
        <li>
          <FlatKey colour={HEAT_MAP_COLOURS.barePaper} />
          plain, in the map of the ink: bare paper, which has no ink to lose
        </li>
        <li>
          <Key hatching={HEAT_MAP_HATCHING.belowFloor} />
          pale lines: measured, but too little to claim anything
        </li>
        <li>
          <Key hatching={HEAT_MAP_HATCHING.notMeasured} />
          dark lines: on the sheet, but not measured (an edge, or a place that could not be found
          again)
        </li>
      </ul>
    </div>
  );
}
