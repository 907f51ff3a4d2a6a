import type { VNode } from "preact";
import { LARGEST_RISK } from "../advice/largestRisk.ts";
import { riskWords } from "../advice/riskWords.ts";
import { deltaBeside, limitShare } from "../advice/toldApart.ts";
import type { TreatmentView } from "../record/treatmentView.ts";
import { DataTable } from "./dataTable.tsx";
import { figure, withRange } from "./figures.ts";
import { Section } from "./page.tsx";
import { UpTo } from "./upTo.tsx";

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A share stays on one line. */
const unbroken = (text: string): string => text.replace(" %", "\u00a0%");

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
        <span class="label">The sheet now</span> {sentence(advice.sheetText)}.
      </p>
      <p class="lead">
        <span class="label">Advice</span> {sentence(advice.headline)}.
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
        most {unbroken(limitShare(limits.risk))}; another bath must bring at least{" "}
        {unbroken(limitShare(limits.minGain))} of the soil removed so far.
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
      caption="Fade predicted from the baths, spread evenly over each ink's area, in dE00: the upper end of its 90 % range, then the lower. Paper whitening is not in it, nor what changes colour where it stands."
      columns={[
        { head: "Ink" },
        { head: "Fade so far", number: true },
        { head: "Only where the blotter stained", number: true },
        { head: "With one more bath", number: true },
        { head: "Limit", number: true },
        { head: "Risk that one more bath passes it", number: true },
        { head: "Accepted", number: true },
        { head: "Bench factor" },
      ]}
      rows={ids.map((id) => {
        const one = fade[id] ?? null;
        const stained = one?.stainedOnly ?? null;
        const learned = bench[id] as TreatmentView["bench"][string] | undefined;
        const upper = advice.upperDeltaE00[id] ?? null;
        return {
          head: id,
          cells: [
            one === null ? "not predicted" : <UpTo low={one.low} high={one.high} />,
            stained === null ? "not known" : <UpTo low={stained.low} high={stained.high} />,
            upper === null ? "not predicted" : `up to ${deltaBeside(upper, limits.maxDeltaE00)}`,
            figure(limits.maxDeltaE00, 1),
            unbroken(riskWords(advice, id)),
            unbroken(limitShare(Math.min(limits.risk, LARGEST_RISK))),
            learned === undefined || learned.treatments === 0
              ? "not learned yet (1)"
              : `${withRange(learned.factor, learned.low, learned.high)} from ${String(learned.treatments)} ${learned.treatments === 1 ? "day" : "days"} of washing`,
          ],
        };
      })}
    />
  );
}
