/** A pure function that answers a question it was asked before from memory. For tests that ask almost the same many times. */
export function remembered<Args extends readonly unknown[], Result>(
  pure: (...args: Args) => Result,
): (...args: Args) => Result {
  const known = new Map<string, Result>();
  return (...args) => {
    const key = JSON.stringify(args, (_, value: unknown) =>
      value instanceof Map ? [...value] : typeof value === "number" ? String(value) : value,
    );
    const found = known.get(key);
    if (found !== undefined) return found;
    const result = pure(...args);
    known.set(key, result);
    return result;
  };
}
