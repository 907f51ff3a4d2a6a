import type { ComponentChildren, VNode } from "preact";
import type { EventOf, RecordEvent } from "../record/event.ts";
import { DataTable } from "./dataTable.tsx";
import { timeOf } from "./dates.ts";
import { nameOf } from "./figures.ts";
import { Section } from "./page.tsx";
import { SIDE_WORDS } from "./sideWords.ts";
import { surfactantWords } from "./surfactantWords.ts";
import { Written } from "./text.tsx";

function whatHappened(event: RecordEvent): ComponentChildren {
  switch (event.kind) {
    case "opened":
      return (
        <>
          Record opened: <Written text={event.settings.title} />
        </>
      );
    case "before":
      return `Scanned dry before washing: ${SIDE_WORDS[event.settings.side]}${event.settings.stateAssumed ? " (dry assumed, not stated)" : ""}`;
    case "after":
      return `Scanned dry, ${event.settings.stage}: ${SIDE_WORDS[event.settings.side]}${event.settings.stateAssumed ? " (dry assumed, not stated)" : ""}`;
    case "blot":
      return (
        <>
          Blotter test: <Written text={event.settings.ink} />
        </>
      );
    case "bath":
      return (
        <>
          {event.settings.kind === "wash" ? "Wash" : "Rinse"}
          {`, ${surfactantWords(event.settings.surfactant)}`}
        </>
      );
    case "step":
      return (
        <>
          {event.settings.bleed === null ? null : (
            <>
              Seen to bleed: <Written text={event.settings.bleed} />
              {event.settings.what === "" ? "" : ". "}
            </>
          )}
          <Written text={event.settings.what} />
        </>
      );
    case "amended":
      return <Amendment event={event} />;
  }
}

function Amendment({ event }: { readonly event: EventOf<"amended"> }): VNode {
  const { event: target, withdrawn, changes, why } = event.settings;
  const corrections = Object.entries(changes).map(
    ([name, value]) => `${name} = ${typeof value === "string" ? value : JSON.stringify(value)}`,
  );
  // A correction may bring pictures alone, as `bath --photo-for` does.
  const photos = event.inputs.length === 0 ? [] : ["its pictures (see files)"];
  return (
    <>
      {withdrawn ? `Event ${target} withdrawn` : `Event ${target} corrected: `}
      {withdrawn ? null : <Written text={[...corrections, ...photos].join(", ")} />}
      {why === null ? null : (
        <>
          . Reason: <Written text={why} />
        </>
      )}
    </>
  );
}

/** What later events did to one. */
function fateOf(event: RecordEvent, events: readonly RecordEvent[]): string {
  const later = events.filter(
    (one): one is EventOf<"amended"> => one.kind === "amended" && one.settings.event === event.id,
  );
  const repeated = events.some(
    (one) =>
      one.id > event.id &&
      ((one.kind === "before" &&
        event.kind === "before" &&
        one.settings.side === event.settings.side) ||
        (one.kind === "after" &&
          event.kind === "after" &&
          one.settings.side === event.settings.side &&
          one.settings.stage === event.settings.stage)),
  );
  return [
    ...later.map(({ id, settings }) =>
      settings.withdrawn ? `withdrawn by ${id}` : `corrected by ${id}`,
    ),
    ...(repeated ? ["scanned again later; the later scan counts"] : []),
  ].join("; ");
}

/** The record as it was written, nothing left out. */
export function StepsPart({ events }: { readonly events: readonly RecordEvent[] }): VNode {
  return (
    <Section title="Record of steps">
      <DataTable
        name="Record of steps"
        caption="In the order in which they were recorded. A correction never replaces what was written."
        columns={[
          { head: "No." },
          { head: "Time" },
          { head: "What" },
          { head: "Files" },
          { head: "Later" },
        ]}
        rows={events.map((event) => ({
          head: event.id,
          cells: [
            timeOf(event.at),
            whatHappened(event),
            <Written
              text={event.inputs.map(({ role, file }) => `${role}: ${nameOf(file)}`).join(", ")}
            />,
            fateOf(event, events),
          ],
        }))}
      />
    </Section>
  );
}
