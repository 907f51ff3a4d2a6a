import { foldEvents, type UnfitCorrection } from "./currentEvents.ts";
import type { EventInput, EventOf, RecordEvent, Settings } from "./event.ts";
import type { SIDES } from "./event.ts";
import { statedSurfactant } from "./statedSurfactant.ts";

export type Side = (typeof SIDES)[number];

interface Dated {
  readonly id: string;
  /** ISO 8601 with offset. */
  readonly at: string;
  readonly inputs: readonly EventInput[];
  /** Place in the record; a later event has a larger one. */
  readonly order: number;
}

export type ScanEvent = Dated & { readonly settings: Settings<"before"> };
export type AfterEvent = Dated & { readonly settings: Settings<"after"> };
export type BlotEvent = Dated & { readonly settings: Settings<"blot"> };
export type BathEvent = Dated & { readonly settings: Settings<"bath"> };
export type StepEvent = Dated & { readonly settings: Settings<"step"> };

/** A record folded into what it says now: the last scan of each side and stage, every test, bath and step in order. */
export interface Treatment {
  readonly opened: EventOf<"opened">;
  readonly before: ReadonlyMap<Side, ScanEvent>;
  readonly washed: ReadonlyMap<Side, AfterEvent>;
  readonly finished: ReadonlyMap<Side, AfterEvent>;
  readonly blots: readonly BlotEvent[];
  /** Blotter tests that were withdrawn: they permit nothing, and what they warned of is not thereby gone. */
  readonly withdrawnBlots: readonly BlotEvent[];
  readonly baths: readonly BathEvent[];
  readonly steps: readonly StepEvent[];
  /** Corrections made to earlier events. */
  readonly amendments: number;
}

/**
 * Folds the events of a record, corrections applied. A repeated scan of a side supersedes the earlier one.
 * @param onUnfit As of `foldEvents`.
 */
export function treatmentOf(
  events: readonly RecordEvent[],
  onUnfit?: (unfit: UnfitCorrection) => void,
): Treatment {
  const { current, withdrawn } = foldEvents(events, onUnfit);
  const opened = current[0] as EventOf<"opened">;
  const before = new Map<Side, ScanEvent>();
  const washed = new Map<Side, AfterEvent>();
  const finished = new Map<Side, AfterEvent>();
  const blots: BlotEvent[] = [];
  const baths: BathEvent[] = [];
  const steps: StepEvent[] = [];
  for (const event of current) {
    const dated = datedOf(event);
    switch (event.kind) {
      case "before":
        before.set(event.settings.side, { ...dated, settings: event.settings });
        break;
      case "after":
        (event.settings.stage === "washed" ? washed : finished).set(event.settings.side, {
          ...dated,
          settings: event.settings,
        });
        break;
      case "blot":
        blots.push({ ...dated, settings: event.settings });
        break;
      case "bath": {
        const { settings } = event;
        const before = baths.findLast((bath) => bath.settings.kind === settings.kind)?.settings;
        const surfactant = statedSurfactant(settings, before);
        baths.push({ ...dated, settings: { ...settings, surfactant } });
        break;
      }
      case "step":
        steps.push({ ...dated, settings: event.settings });
        break;
      case "opened":
      case "amended":
        break;
    }
  }
  const amendments = events.filter(({ kind }) => kind === "amended").length;
  const withdrawnBlots = withdrawn.flatMap((event) =>
    event.kind === "blot" ? [{ ...datedOf(event), settings: event.settings }] : [],
  );
  return { opened, before, washed, finished, blots, withdrawnBlots, baths, steps, amendments };
}

function datedOf({ id, at, inputs }: RecordEvent): Dated {
  return { id, at, inputs, order: Number(id) };
}

/** The input of an event by its role; undefined where it has none. */
export function inputOf(event: { readonly inputs: readonly EventInput[] }, role: string) {
  return event.inputs.find((input) => input.role === role);
}
