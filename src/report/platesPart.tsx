import type { VNode } from "preact";
import type { CompareResult } from "../results/compareResult.ts";
import { plateSentences } from "../results/plateWords.ts";
import { Section } from "./page.tsx";

/** One line a printing ink, before everything else about colour; nothing where the result knows of none. */
export function PlatesPart({
  result,
  suffix,
}: {
  readonly result: CompareResult;
  /** Added to the heading where a page has several comparisons. */
  readonly suffix: string;
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
    </Section>
  );
}
