import type { BleedReport, BlotTest } from "../advice/treatmentState.ts";
import type { Blot } from "../bath/palette.ts";
import type { BlotEvent, StepEvent } from "./treatment.ts";

/** A test whose photo gave a grade; the user's own word goes before it. */
export interface GradedBlot {
  readonly event: BlotEvent;
  /** null: neither a photo that could be read nor a word. */
  readonly result: Blot | null;
}

/**
 * Blotter tests by the ink they were made on, in order. A test that was withdrawn permits nothing; unless it was fast it stays as one without
 * a result, so that taking back bad news makes no good news: the ink is to be tested anew.
 */
export function testsByInk(
  graded: readonly GradedBlot[],
  withdrawn: readonly GradedBlot[] = [],
): Map<string, BlotTest[]> {
  const all = [
    ...graded.map((test) => ({ ...test, takenBack: false })),
    ...withdrawn
      .filter(({ result }) => result !== "fast")
      .map(({ event }) => ({ event, result: null, takenBack: true })),
  ].sort((a, b) => a.event.order - b.event.order);
  const tests = new Map<string, BlotTest[]>();
  for (const { event, result, takenBack } of all) {
    const { ink, surfactant, ph, temperatureC, minutes } = event.settings;
    const test: BlotTest = {
      result: result ?? "untested",
      liquid: { surfactant, ph, temperatureC, minutes },
      order: event.order,
      ...(takenBack ? { takenBack } : {}),
    };
    tests.set(ink, [...(tests.get(ink) ?? []), test]);
  }
  return tests;
}

/** Bleeding that was seen at the tray, by ink. */
export function bleedingByInk(steps: readonly StepEvent[]): Map<string, BleedReport[]> {
  const bleeding = new Map<string, BleedReport[]>();
  for (const { settings, order } of steps) {
    if (settings.bleed === null) continue;
    const reports = bleeding.get(settings.bleed) ?? [];
    bleeding.set(settings.bleed, [...reports, { how: "seen", order }]);
  }
  return bleeding;
}
