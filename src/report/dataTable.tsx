import type { ComponentChildren, VNode } from "preact";

export interface Column {
  readonly head: ComponentChildren;
  /** Figures stand flush right. */
  readonly number?: boolean;
  /** Holds sentences: never squeezed to a word a line. */
  readonly wide?: boolean;
}

function classOf(column: Column | undefined): string | undefined {
  return column?.number === true ? "number" : column?.wide === true ? "wide" : undefined;
}

export interface Row {
  readonly head: ComponentChildren;
  readonly cells: readonly ComponentChildren[];
}

/** A table of no more rows is kept on one printed page. */
const SHORT = 8;

/** A table that may be wider than the screen: it scrolls in its own frame, by keyboard as well. */
export function DataTable({
  name,
  caption,
  columns,
  rows,
}: {
  /** Names the frame; differs from that of every other table of the page. */
  readonly name: string;
  readonly caption?: ComponentChildren;
  /** The first heads the rows. */
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}): VNode {
  const [, ...others] = columns;
  return (
    <div class="scroll" tabindex={0} role="region" aria-label={`Table: ${name}`}>
      <table class={rows.length <= SHORT ? "short" : undefined}>
        {caption === undefined ? null : <caption>{caption}</caption>}
        <thead>
          <tr>
            {columns.map((column) => (
              <th scope="col" class={classOf(column)}>
                {column.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ head, cells }) => (
            <tr>
              <th scope="row">{head}</th>
              {cells.map((cell, i) => (
                <td class={classOf(others[i])}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
