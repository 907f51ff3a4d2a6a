import type { VNode } from "preact";
import type { TreatmentView } from "../record/treatmentView.ts";
import { DataTable } from "./dataTable.tsx";
import { figure } from "./figures.ts";
import { Section } from "./page.tsx";
import { Ranged } from "./ranged.tsx";
import { SpanChart, type SpanGroup } from "./spanChart.tsx";

/** Prediction beside measurement, once the cover is dry. */
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
        ...(predicted === null ? [] : [{ name: "predicted", ...predicted, predicted: true }]),
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
      ];
      return spans.length === 0 ? [] : [{ name: id, spans }];
    },
  );
  const words =
    compared === 0
      ? "No ink has both a prediction and a measurement."
      : `For ${String(agreeing)} of ${String(compared)} inks the measured range meets the predicted one.`;
  return (
    <Section title="Was the prediction right?">
      <p>{words}</p>
      {groups.length === 0 ? null : (
        <SpanChart
          groups={groups}
          unit="Loss of ink, dE00 (predicted: 90 %, measured: 95 %)"
          limit={{ value: limits.maxDeltaE00, text: "your limit" }}
          says={`Predicted and measured loss of ink. ${words}`}
        />
      )}
      <DataTable
        name="Prediction and measurement"
        caption="Loss of ink in dE00: predicted from the baths with its 90 % range, measured dry (ink part) with its 95 % interval."
        columns={[
          { head: "Ink" },
          { head: "Predicted", number: true },
          { head: "Measured", number: true },
          { head: "Floor", number: true },
          { head: "In words" },
        ]}
        rows={inks.map((ink) => ({
          head: ink.id,
          cells: [
            ink.predicted === null ? (
              "not predicted"
            ) : (
              <Ranged value={ink.predicted.mid} low={ink.predicted.low} high={ink.predicted.high} />
            ),
            <Ranged value={ink.measured} low={ink.measuredLow} high={ink.measuredHigh} />,
            figure(ink.floorDeltaE00),
            ink.agrees === null
              ? "cannot be compared"
              : ink.agrees
                ? "the ranges meet"
                : ink.predicted !== null && (ink.measured ?? 0) > ink.predicted.mid
                  ? "more was lost than predicted"
                  : "less was lost than predicted",
          ],
        }))}
      />
    </Section>
  );
}
