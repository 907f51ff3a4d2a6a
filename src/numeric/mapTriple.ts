/** A function of each of three values that belong together. */
export function mapTriple<From, To>(
  values: readonly [From, From, From],
  of: (value: From, index: number) => To,
): readonly [To, To, To] {
  return [of(values[0], 0), of(values[1], 1), of(values[2], 2)];
}
