import { scaleLinear } from "d3-scale";
import type { VNode } from "preact";
import { isWide } from "./isWide.ts";

/** Ranges that lie one under the other, each with its own name. */
export interface Span {
  readonly name: string;
  readonly low: number;
  readonly mid: number;
  readonly high: number;
  /** Drawn with an open mark, and with none where the range is too wide for a middle. */
  readonly predicted: boolean;
}

export interface SpanGroup {
  readonly name: string;
  readonly spans: readonly Span[];
}

const WIDTH = 420;
const NAME_WIDTH = 150;
const RIGHT = 16;
const LINE = 20;
const GAP = 10;
const TOP = 8;
const AXIS = 40;
const TICKS = 5;

/** Groups of ranges on one axis that begins at nothing. */
export function SpanChart({
  groups,
  unit,
  limit,
  says,
}: {
  readonly groups: readonly SpanGroup[];
  readonly unit: string;
  readonly limit: { readonly value: number; readonly text: string } | null;
  readonly says: string;
}): VNode {
  const top = Math.max(
    limit?.value ?? 0,
    ...groups.flatMap(({ spans }) => spans.map(({ high }) => high)),
  );
  const x = scaleLinear()
    .domain([0, top > 0 ? top : 1])
    .nice(TICKS)
    .range([NAME_WIDTH, WIDTH - RIGHT]);
  const starts: number[] = [];
  let bottom = TOP;
  for (const { spans } of groups) {
    starts.push(bottom);
    bottom += LINE * Math.max(1, spans.length) + GAP;
  }
  return (
    <figure class="chart">
      <svg viewBox={`0 0 ${String(WIDTH)} ${String(bottom + AXIS)}`} role="img" aria-label={says}>
        {x.ticks(TICKS).map((tick) => (
          <g>
            <line class="grid" x1={x(tick)} x2={x(tick)} y1={TOP} y2={bottom} />
            <text x={x(tick)} y={bottom + 15} text-anchor="middle">
              {String(tick)}
            </text>
          </g>
        ))}
        <text x={(NAME_WIDTH + WIDTH - RIGHT) / 2} y={bottom + 33} text-anchor="middle">
          {unit}
        </text>
        {limit === null ? null : (
          <g>
            <line class="limit" x1={x(limit.value)} x2={x(limit.value)} y1={TOP} y2={bottom} />
            <text class="limit-text" x={x(limit.value) - 4} y={bottom - 2} text-anchor="end">
              {limit.text}
            </text>
          </g>
        )}
        {groups.map(({ name, spans }, group) => (
          <g>
            <text class="panel-title" x={4} y={starts[group] + 14}>
              {name}
            </text>
            {spans.map((span, i) => {
              const y = starts[group] + LINE * i + 10;
              return (
                <g class={span.predicted ? "forecast" : "reading"}>
                  <text x={NAME_WIDTH - 8} y={y + 4} text-anchor="end">
                    {span.name}
                  </text>
                  <line x1={x(span.low)} x2={x(span.high)} y1={y} y2={y} />
                  <line x1={x(span.low)} x2={x(span.low)} y1={y - 5} y2={y + 5} />
                  <line x1={x(span.high)} x2={x(span.high)} y1={y - 5} y2={y + 5} />
                  {span.predicted && isWide(span.low, span.high) ? null : (
                    <circle cx={x(span.mid)} cy={y} r={4.5} />
                  )}
                </g>
              );
            })}
          </g>
        ))}
      </svg>
    </figure>
  );
}
