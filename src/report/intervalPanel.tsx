import { scaleLinear, scalePoint } from "d3-scale";
import { line } from "d3-shape";
import type { VNode } from "preact";
import { isWide } from "./isWide.ts";

/** One place along the axis: a range with its middle, or nothing. */
export interface PanelPoint {
  readonly label: string;
  /** null: not measured; the place stays empty. */
  readonly range: readonly [low: number, mid: number, high: number] | null;
  /** A forecast: drawn with an open mark. */
  readonly forecast?: boolean;
}

const WIDTH = 320;
const HEIGHT = 190;
const EDGE = { left: 52, right: 12, top: 24, bottom: 38 };
/** Room for the name of a limit beside its line. */
const LIMIT_ROOM = 60;
const TICKS = 4;

/** Upper end of the axis for some panels that share it. */
export function commonTop(
  panels: readonly (readonly PanelPoint[])[],
  ...others: readonly number[]
): number {
  return Math.max(0, ...others, ...panels.flat().map(({ range }) => range?.[2] ?? 0));
}

/** A small chart of ranges over baths; a range too wide for a middle is drawn without one. The words of its result are in `says`; the figures stand in a table beside it. */
export function IntervalPanel({
  title,
  unit,
  axis,
  points,
  top,
  limit = null,
  says,
}: {
  readonly title: string;
  readonly unit: string;
  /** What the places along the bottom are. */
  readonly axis: string;
  readonly points: readonly PanelPoint[];
  /** Upper end of the axis. */
  readonly top: number;
  readonly limit?: { readonly value: number; readonly text: string } | null;
  readonly says: string;
}): VNode {
  const right = WIDTH - EDGE.right - (limit === null ? 0 : LIMIT_ROOM);
  const y = scaleLinear()
    .domain([0, top > 0 ? top : 1])
    .nice(TICKS)
    .range([HEIGHT - EDGE.bottom, EDGE.top]);
  const x = scalePoint()
    .domain(points.map(({ label }) => label))
    .range([EDGE.left, right])
    .padding(0.5);
  const at = (label: string): number => x(label) ?? 0;
  const known = points.flatMap(({ label, range, forecast }) =>
    range === null ? [] : [{ label, range, forecast: forecast === true }],
  );
  const path = line<(typeof known)[number]>(
    ({ label }) => at(label),
    ({ range }) => y(range[1]),
  )(known.filter(({ forecast, range: [low, , high] }) => !forecast && !isWide(low, high)));
  return (
    <figure class="panel">
      <svg
        viewBox={`0 0 ${String(WIDTH)} ${String(HEIGHT)}`}
        role="img"
        aria-label={`${title}. ${says}`}
      >
        <text class="panel-title" x={4} y={13}>
          {title}, {unit}
        </text>
        {y.ticks(TICKS).map((tick) => (
          <g>
            <line class="grid" x1={EDGE.left} x2={right} y1={y(tick)} y2={y(tick)} />
            <text x={EDGE.left - 6} y={y(tick) + 4} text-anchor="end">
              {String(tick)}
            </text>
          </g>
        ))}
        {points.map(({ label, range }) => (
          <g>
            <text x={at(label)} y={HEIGHT - EDGE.bottom + 18} text-anchor="middle">
              {label}
            </text>
            {range === null ? (
              <text class="missing" x={at(label)} y={HEIGHT - EDGE.bottom - 4} text-anchor="middle">
                no figure
              </text>
            ) : null}
          </g>
        ))}
        <text x={(EDGE.left + right) / 2} y={HEIGHT - 3} text-anchor="middle">
          {axis}
        </text>
        {limit === null ? null : (
          <g>
            <line class="limit" x1={EDGE.left} x2={right} y1={y(limit.value)} y2={y(limit.value)} />
            <text class="limit-text" x={right + 5} y={y(limit.value) + 4}>
              {limit.text}
            </text>
          </g>
        )}
        {path === null ? null : <path class="trend" d={path} />}
        {known.map(({ label, range: [low, mid, high], forecast }) => (
          <g class={forecast ? "forecast" : "reading"}>
            <line x1={at(label)} x2={at(label)} y1={y(low)} y2={y(high)} />
            <line x1={at(label) - 6} x2={at(label) + 6} y1={y(low)} y2={y(low)} />
            <line x1={at(label) - 6} x2={at(label) + 6} y1={y(high)} y2={y(high)} />
            {isWide(low, high) ? null : <circle cx={at(label)} cy={y(mid)} r={4.5} />}
          </g>
        ))}
      </svg>
    </figure>
  );
}
