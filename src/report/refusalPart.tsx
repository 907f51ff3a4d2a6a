import type { VNode } from "preact";

/** Why there is no figure, and what to do. */
export function RefusalPart({
  message,
  remedy,
}: {
  readonly message: string;
  readonly remedy: string;
}): VNode {
  return (
    <div class="lead-panel">
      <p class="lead">No figure can be given.</p>
      <p>
        <strong>Why.</strong> {message}
      </p>
      <p>
        <strong>What to do.</strong> {remedy}
      </p>
    </div>
  );
}
