import { LastrinseError } from "../errors.ts";

/** What a thread answers: errors lose their class between threads, so what the user can mend travels as plain values. */
export type Carried<Value> =
  | { readonly value: Value }
  | { readonly refusal: Pick<LastrinseError, "code" | "message" | "remedy" | "input"> };

/** The worker's half: a function whose result, or refusal, can cross to the caller's thread. */
export function carrying<Argument, Value>(
  work: (argument: Argument) => Value | Promise<Value>,
): (argument: Argument) => Promise<Carried<Value>> {
  return async (argument) => {
    try {
      return { value: await work(argument) };
    } catch (error) {
      if (!(error instanceof LastrinseError)) throw error;
      const { code, message, remedy, input } = error;
      return { refusal: { code, message, remedy, input } };
    }
  };
}

/** The caller's half. @throws {LastrinseError} The refusal, with its class again. */
export function received<Value>(carried: Carried<Value>): Value {
  if ("value" in carried) return carried.value;
  const { code, message, remedy, input } = carried.refusal;
  throw new LastrinseError(code, message, { remedy, input: input ?? undefined });
}
