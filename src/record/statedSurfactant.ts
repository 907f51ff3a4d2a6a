import type { Settings } from "./event.ts";

/**
 * Whether a bath held surfactant, as somebody said it. An earlier release wrote "none" where nothing was said, and named that
 * repeated: it is unknown, unless a bath of that kind before it was really said to hold none.
 * @param before The settings of the last bath of the same kind, as this function left them; undefined where there is none.
 * @returns null where nobody said.
 */
export function statedSurfactant(
  { surfactant, repeated }: Settings<"bath">,
  before: Settings<"bath"> | undefined,
): boolean | null {
  const said = surfactant !== false || !repeated.includes("surfactant");
  return said || before?.surfactant === false ? surfactant : null;
}
