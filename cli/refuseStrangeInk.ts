import { LastrinseError } from "../src/errors.ts";
import type { OpenRecord } from "../src/record/openRecord.ts";
import { strangeInk } from "../src/record/strangeInk.ts";

/**
 * Refuses the name of an ink that is on no scan, once there is one.
 * @param option Where it was given, for the message.
 * @throws {LastrinseError} `wrong-use`, with the inks and the one that was probably meant.
 */
export async function refuseStrangeInk(
  record: OpenRecord,
  name: string,
  option: string,
): Promise<void> {
  const strange = await strangeInk(record, name);
  if (strange === null) return;
  const { inks, nearest } = strange;
  throw new LastrinseError(
    "wrong-use",
    `Expected one of the inks of the before scan (${inks.join(", ")}) for ${option}, received "${name}"${nearest === null ? "." : `: did you mean ${nearest}?`}`,
    {
      remedy: `Give the command again with ${nearest ?? "one of these names"}; for an ink on a face that was not scanned add --unlisted. Nothing was recorded.`,
      input: option,
    },
  );
}
