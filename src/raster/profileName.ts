import { parse } from "icc";

/**
 * What an embedded ICC profile calls itself.
 * @param icc The profile; undefined where none is embedded.
 * @returns null where none is embedded. A profile without a readable name is still a profile.
 */
export function profileName(icc: Buffer | undefined): string | null {
  if (icc === undefined) return null;
  try {
    const name = parse(icc).description?.replaceAll("\0", "").trim();
    return name === undefined || name === "" ? "profile without a name" : name;
  } catch {
    return "unreadable profile";
  }
}
