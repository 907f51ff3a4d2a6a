import type { VNode } from "preact";
import type { Warning } from "../errors.ts";
import { Section } from "./page.tsx";

/** Warnings in words; nothing where there are none. */
export function NotesPart({ warnings }: { readonly warnings: readonly Warning[] }): VNode | null {
  if (warnings.length === 0) return null;
  return (
    <Section title="Notes on the measurement">
      {warnings.map(({ message }) => (
        <p class="note">{message}</p>
      ))}
    </Section>
  );
}
