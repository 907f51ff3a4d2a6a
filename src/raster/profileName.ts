import { parse } from "icc";

const UNREADABLE = "unreadable profile";

/** ICC.1: after a header of 128 bytes the number of tags, then 12 bytes for each. */
const TAG_COUNT_AT = 128;
const TAG_BYTES = 12;

/** Whether the tags fit: the parser walks through as many as a damaged profile claims, up to four billion. */
function tagsFit(icc: Buffer): boolean {
  const first = TAG_COUNT_AT + 4;
  return icc.length >= first && icc.readUInt32BE(TAG_COUNT_AT) <= (icc.length - first) / TAG_BYTES;
}

/**
 * What an embedded ICC profile calls itself.
 * @param icc The profile; undefined where none is embedded.
 * @returns null where none is embedded. A profile without a readable name is still a profile.
 */
export function profileName(icc: Buffer | undefined): string | null {
  if (icc === undefined) return null;
  if (!tagsFit(icc)) return UNREADABLE;
  try {
    const name = parse(icc).description?.replaceAll("\0", "").trim();
    return name === undefined || name === "" ? "profile without a name" : name;
  } catch {
    return UNREADABLE;
  }
}
