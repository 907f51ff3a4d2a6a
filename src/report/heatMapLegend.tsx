import type { VNode } from "preact";
import { HEAT_MAP_COLOURS, HEAT_MAP_MAX_DELTA_E00, heatMapCss } from "./heatMap.ts";

const STEPS = 50;
const BAR = { x: 4, y: 4, width: 240, height: 14 };

function cssOf([r, g, b]: readonly [number, number, number]): string {
  return `rgb(${String(r)} ${String(g)} ${String(b)})`;
}

/** The fixed scale of the difference map. */
export function HeatMapLegend(): VNode {
  const stepWidth = BAR.width / STEPS;
  const boxes = [
    { colour: HEAT_MAP_COLOURS.beyondScale, text: "beyond the scale" },
    { colour: HEAT_MAP_COLOURS.belowFloor, text: "below the floor: nothing claimed" },
    { colour: HEAT_MAP_COLOURS.noData, text: "not measured" },
  ];
  return (
    <div class="legend">
      <svg
        viewBox="0 0 480 60"
        role="img"
        aria-label={`Scale of the difference map: 0 to ${String(HEAT_MAP_MAX_DELTA_E00)} dE00, dark violet to yellow; red beyond the scale, near white below the floor, grey not measured`}
      >
        {Array.from({ length: STEPS }, (_, i) => (
          <rect
            x={BAR.x + i * stepWidth}
            y={BAR.y}
            width={stepWidth + 0.5}
            height={BAR.height}
            fill={heatMapCss(((i + 0.5) / STEPS) * HEAT_MAP_MAX_DELTA_E00)}
          />
        ))}
        {[0, 2, 4, 6, 8, 10].map((tick) => (
          <text
            x={BAR.x + (tick / HEAT_MAP_MAX_DELTA_E00) * BAR.width}
            y={BAR.y + BAR.height + 14}
            font-size="11"
            text-anchor={tick === 0 ? "start" : "middle"}
          >
            {tick}
          </text>
        ))}
        <text x={BAR.x} y={56} font-size="11">
          dE00 (CIEDE2000)
        </text>
        {boxes.map(({ colour, text }, i) => (
          <g>
            <rect
              x={272}
              y={4 + 18 * i}
              width={14}
              height={12}
              fill={cssOf(colour)}
              stroke="#8a8373"
            />
            <text x={292} y={14 + 18 * i} font-size="11">
              {text}
            </text>
          </g>
        ))}
      </svg>
    </div>
  );
}
