import type { VNode } from "preact";

/** Text that somebody wrote: kept apart from its surroundings whatever its direction, line breaks kept. */
export function Written({ text }: { readonly text: string }): VNode {
  return <bdi class="written">{text}</bdi>;
}
