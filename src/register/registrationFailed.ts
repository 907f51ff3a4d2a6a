import { LastrinseError } from "../errors.ts";

/** The pair can't be brought together. @param input The after file, where its name is known. */
export function registrationFailed(
  message: string,
  remedy: string,
  input: string | undefined,
): LastrinseError {
  return new LastrinseError("registration-failed", message, { remedy, input });
}

/** A share for people. */
export function percent(share: number, digits = 0): string {
  return `${(100 * share).toFixed(digits)} %`;
}
