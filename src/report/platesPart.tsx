import type { VNode } from "preact";
import type { CompareResult } from "../results/compareResult.ts";
import { plateSentences } from "../results/plateWords.ts";
import { PLATES_MAX_PERCENT, PLATES_TICKS } from "../picture/platesPicture.ts";
import { Section } from "./page.tsx";

/** One line a printing ink, before everything else about colour; nothing where the result knows of none. */
export function PlatesPart({
  result,
  suffix,
  maps = null,
}: {
  readonly result: CompareResult;
  /** Added to the heading where a page has several comparisons. */
  readonly suffix: string;
  /** Data address of the maps of all plates in a row; null: not shown. */
  readonly maps?: string | null;
}): VNode | null {
  const { plates, note } = plateSentences(result);
  if (note === null) return null;
  return (
    <Section title={`Printing inks${suffix}`}>
      {plates.length === 0 ? null : (
        <ul>
          {plates.map((sentence) => (
            <li>{sentence}</li>
          ))}
        </ul>
      )}
      <p>{note}</p>
      {plates.length === 0 ? null : (
        <p class="soft">Shares of each ink's colourant on the sheet, with their 94 % intervals.</p>
      )}
      {maps === null ? null : (
        <PlateMaps uri={maps} names={(result.plates ?? []).map(({ name }) => name)} />
      )}
    </Section>
  );
}

function PlateMaps({
  uri,
  names,
}: {
  readonly uri: string;
  readonly names: readonly string[];
}): VNode {
  const order = names.join(", ");
  return (
    <figure>
      <img
        src={uri}
        style="max-width:100%;height:auto"
        alt={`Loss by place, one map an ink, from left to right: ${order}.`}
      />
      <figcaption>
        Loss by place, in squares of 20 mm, from left to right: {order}. The scale below the maps is
        the same in every report, from dark violet over green to yellow; its marks stand at{" "}
        {PLATES_TICKS.join(", ")} percent of the ink's colourant. Red: more than{" "}
        {PLATES_MAX_PERCENT} percent. Dark lines: too little of the ink is printed there. Pale lines
        over a whole map: no loss of that ink is shown.
      </figcaption>
    </figure>
  );
}
