import type { VNode } from "preact";
import type { BlotView, TreatmentView } from "../record/treatmentView.ts";
import { DataTable } from "./dataTable.tsx";
import { timeOf } from "./dates.ts";
import { figure } from "./figures.ts";
import { Section } from "./page.tsx";
import { Written } from "./text.tsx";

function liquidOf({ settings }: BlotView): VNode {
  const { liquid, surfactant, ph, temperatureC, minutes, site } = settings;
  const stated = [
    surfactant === null
      ? "surfactant not stated"
      : surfactant
        ? "with surfactant"
        : "no surfactant",
    ph === null ? "pH not stated" : `pH ${figure(ph, 1)}`,
    temperatureC === null ? "temperature not stated" : `${figure(temperatureC, 0)} °C`,
    minutes === null ? "time not stated" : `${figure(minutes, 1)} min`,
  ].join(", ");
  return (
    <>
      {liquid === null ? null : (
        <>
          <Written text={liquid} />,{" "}
        </>
      )}
      {stated}
      {site === null ? null : (
        <>
          ; at <Written text={site} />
        </>
      )}
    </>
  );
}

function howOf({ hasPhoto, settings, refused }: BlotView): string {
  const by = [
    ...(settings.result === null ? [] : ["by eye"]),
    ...(hasPhoto ? [refused === null ? "by photo" : `photo refused: ${refused.message}`] : []),
  ];
  return by.join("; ");
}

/** Blotter tests: which inks can move at all, and in what. */
export function BlotsPart({ blots }: TreatmentView): VNode {
  return (
    <Section title="Blotter tests">
      {blots.length === 0 ? (
        <p>No ink was tested.</p>
      ) : (
        <DataTable
          name="Blotter tests"
          caption="A test counts for baths no more alkaline, no warmer and no longer than its own liquid, and with surfactant only if it held some."
          columns={[
            { head: "Ink" },
            { head: "Result" },
            { head: "How" },
            { head: "Liquid" },
            { head: "Recorded" },
          ]}
          rows={blots.map((blot) => ({
            head: <Written text={blot.settings.ink} />,
            cells: [blot.result ?? "no result", howOf(blot), liquidOf(blot), timeOf(blot.at)],
          }))}
        />
      )}
    </Section>
  );
}
