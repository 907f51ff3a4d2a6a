import type { VNode } from "preact";
import { SHEET_WORDS, VERDICT_WORDS } from "../results/adviceWords.ts";
import type { TreatmentView } from "../record/treatmentView.ts";
import { DataTable } from "./dataTable.tsx";
import { figure, percent, withRange } from "./figures.ts";
import { Section } from "./page.tsx";
import { Ranged } from "./ranged.tsx";

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function List({ lines }: { readonly lines: readonly string[] }): VNode {
  return (
    <ul>
      {lines.map((line) => (
        <li>{line}</li>
      ))}
    </ul>
  );
}

/** Where the sheet belongs while the user reads on, then the verdict: the first thing on the page at the tray. */
export function AdviceLead({ advice }: TreatmentView): VNode {
  return (
    <div class="lead-panel">
      <p class="lead">
        <span class="label">The sheet now</span> {sentence(SHEET_WORDS[advice.sheetNow])}.
      </p>
      <p class="lead">
        <span class="label">Advice</span> {sentence(VERDICT_WORDS[advice.verdict])}.
      </p>
    </div>
  );
}

/** Why, what must be done, what would change it. */
export function ReasonsPart({ advice, limits }: TreatmentView): VNode {
  return (
    <Section title="Why">
      {advice.reasons.length === 0 ? (
        <p>Nothing in the record speaks against it.</p>
      ) : (
        <List lines={advice.reasons.map(({ text }) => text)} />
      )}
      <p>
        Your limits: {figure(limits.maxDeltaE00, 1)} dE00 of fade for each ink, with a risk of at
        most {percent(limits.risk)}; another bath must bring at least {percent(limits.minGain)} of
        the soil removed so far.
      </p>
      {advice.mustDo.length === 0 ? null : (
        <>
          <h3>Must be done</h3>
          <List lines={advice.mustDo} />
        </>
      )}
      {advice.wouldChangeIt.length === 0 ? null : (
        <>
          <h3>What would change this advice</h3>
          <List lines={advice.wouldChangeIt} />
        </>
      )}
    </Section>
  );
}

/** Fade of each ink so far and the risk of one more bath. */
export function RiskTable({ advice, fade, bench, limits }: TreatmentView): VNode {
  const ids = [...new Set([...Object.keys(fade), ...Object.keys(advice.riskOfExceeding)])];
  if (ids.length === 0)
    return <p>No ink is known yet: scan the dry cover, or test an ink under a blotter.</p>;
  return (
    <DataTable
      name="Predicted fade and risk"
      caption="Fade predicted from the baths, spread evenly over each ink's area, in dE00 with its 90 % range. Paper whitening is not in it."
      columns={[
        { head: "Ink" },
        { head: "Fade so far", number: true },
        { head: "Only where the blotter stained", number: true },
        { head: "Limit", number: true },
        { head: "Risk that one more bath passes it", number: true },
        { head: "Accepted", number: true },
        { head: "Bench factor" },
      ]}
      rows={ids.map((id) => {
        const one = fade[id] ?? null;
        const stained = one?.stainedOnly ?? null;
        const learned = bench[id] as TreatmentView["bench"][string] | undefined;
        const risk = advice.riskOfExceeding[id] ?? null;
        return {
          head: id,
          cells: [
            one === null ? (
              "not predicted"
            ) : (
              <Ranged value={one.mid} low={one.low} high={one.high} />
            ),
            stained === null ? (
              "not known"
            ) : (
              <Ranged value={stained.mid} low={stained.low} high={stained.high} />
            ),
            figure(limits.maxDeltaE00, 1),
            risk === null ? "cannot be said" : percent(risk),
            percent(limits.risk),
            learned === undefined || learned.treatments === 0
              ? "not learned yet (1)"
              : `${withRange(learned.factor, learned.low, learned.high)} from ${String(learned.treatments)} ${learned.treatments === 1 ? "day" : "days"} of washing`,
          ],
        };
      })}
    />
  );
}
