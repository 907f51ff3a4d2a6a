import type { VNode } from "preact";
import { HEAT_MAP_COLOURS, HEAT_MAP_MAX_DELTA_E00, heatMapCss } from "../picture/heatMap.ts";

const STEPS = 50;
const TICKS = [0, 2, 4, 6, 8, 10];
const BOXES = [
  { colour: HEAT_MAP_COLOURS.beyondScale, text: "more than 10: beyond the scale" },
  { colour: HEAT_MAP_COLOURS.belowFloor, text: "below the floor: nothing is claimed" },
  { colour: HEAT_MAP_COLOURS.noData, text: "not measured" },
];

function cssOf([r, g, b]: readonly [number, number, number]): string {
  return `rgb(${String(r)} ${String(g)} ${String(b)})`;
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
          aria-label={`Scale of the difference map: 0 to ${String(HEAT_MAP_MAX_DELTA_E00)} dE00, from dark violet over green to yellow`}
        >
          {Array.from({ length: STEPS }, (_, i) => (
            <rect
              x={i}
              width={1.1}
              height={3}
              fill={heatMapCss(((i + 0.5) / STEPS) * HEAT_MAP_MAX_DELTA_E00)}
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
        {BOXES.map(({ colour, text }) => (
          <li>
            <svg class="key" viewBox="0 0 14 12" aria-hidden="true">
              <rect x="0.5" y="0.5" width="13" height="11" fill={cssOf(colour)} stroke="#8a8373" />
            </svg>
            {text}
          </li>
        ))}
      </ul>
    </div>
  );
}
