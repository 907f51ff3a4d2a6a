import type { ComponentChildren, VNode } from "preact";

export interface Column {
  readonly head: ComponentChildren;
  /** Figures stand flush right. */
  readonly number?: boolean;
}

export interface Row {
  readonly head: ComponentChildren;
  readonly cells: readonly ComponentChildren[];
}

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
    <div class="scroll" tabindex={0} role="region" aria-label={name}>
      <table>
        {caption === undefined ? null : <caption>{caption}</caption>}
        <thead>
          <tr>
            {columns.map(({ head, number }) => (
              <th scope="col" class={number === true ? "number" : undefined}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ head, cells }) => (
            <tr>
              <th scope="row">{head}</th>
              {cells.map((cell, i) => (
                <td class={others[i]?.number === true ? "number" : undefined}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
