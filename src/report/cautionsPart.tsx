import type { VNode } from "preact";
import { CAUTIONS } from "./cautions.ts";
import { Section } from "./page.tsx";

/** Cautions for people and object; on every report. */
export function CautionsPart(): VNode {
  return (
    <Section title="Cautions">
      {CAUTIONS.map(({ about, text }) => (
        <p>
          <strong>{about}.</strong> {text}
        </p>
      ))}
    </Section>
  );
}
