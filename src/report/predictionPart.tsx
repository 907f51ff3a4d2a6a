import type { VNode } from "preact";
import { predictionWords } from "../record/checkPrediction.ts";
import type { TreatmentView } from "../record/treatmentView.ts";
import { DataTable } from "./dataTable.tsx";
import { figure } from "./figures.ts";
import { Section } from "./page.tsx";
import { Ranged } from "./ranged.tsx";
import { UpTo } from "./upTo.tsx";
import { SpanChart, type SpanGroup } from "./spanChart.tsx";

/** Measurement beside prediction, once the cover is dry. */
export function PredictionPart({ prediction, limits }: TreatmentView): VNode {
  if (prediction === null || prediction.inks.length === 0)
    return (
      <Section title="Was the prediction right?">
        <p>
          There is nothing to compare: this needs baths that were read and a scan of the washed
          front.
        </p>
      </Section>
    );
  const { inks, agreeing, compared } = prediction;
  const groups = inks.flatMap(
    ({ id, predicted, measured, measuredLow, measuredHigh }): SpanGroup[] => {
      const spans = [
        ...(measured === null || measuredLow === null || measuredHigh === null
          ? []
          : [
              {
                name: "measured",
                low: measuredLow,
                mid: measured,
                high: measuredHigh,
                predicted: false,
              },
            ]),
        ...(predicted === null ? [] : [{ name: "predicted", ...predicted, predicted: true }]),
      ];
      return spans.length === 0 ? [] : [{ name: id, spans }];
    },
  );
  const wide = inks.filter(({ verdict }) => verdict === "too-wide-to-test").length;
  const words =
    compared === 0
      ? "No ink has both a prediction and a measurement."
      : `${String(agreeing)} of ${String(compared)} inks agree with their prediction.${wide === 0 ? "" : ` For ${String(wide)} the ranges meet, but are too wide to call that agreement.`}`;
  return (
    <Section title="Was the prediction right?">
      <p>{words}</p>
      {groups.length === 0 ? null : (
        <SpanChart
          groups={groups}
          unit="Loss of ink, dE00 (measured: 95 %, predicted: 90 %)"
          limit={{ value: limits.maxDeltaE00, text: "your limit" }}
          says={`Measured and predicted loss of ink. ${words}`}
        />
      )}
      <DataTable
        name="Prediction and measurement"
        caption="Loss of ink in dE00: measured dry (ink part) with its 95 % interval, and predicted from the baths, the upper end of the 90 % range first. They agree where the predicted range is narrower than your limit and holds what was measured."
        columns={[
          { head: "Ink" },
          { head: "Measured", number: true },
          { head: "Floor", number: true },
          { head: "Predicted", number: true },
          { head: "In words" },
        ]}
        rows={inks.map((ink) => ({
          head: ink.id,
          cells: [
            <Ranged value={ink.measured} low={ink.measuredLow} high={ink.measuredHigh} />,
            figure(ink.floorDeltaE00),
            ink.predicted === null ? (
              "not predicted"
            ) : (
              <UpTo low={ink.predicted.low} high={ink.predicted.high} />
            ),
            predictionWords(ink),
          ],
        }))}
      />
    </Section>
  );
}
