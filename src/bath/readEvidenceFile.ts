import { readUserJson } from "../json/readUserJson.ts";
import type { Evidence } from "./evidence.ts";
import { CHECKED_EVIDENCE, EVIDENCE_FILE } from "./readEvidence.ts";

/**
 * Reads an evidence file.
 * @throws {LastrinseError} `unreadable`; `bad-json`, naming path and line of each wrong entry.
 */
export function readEvidenceFile(file: string): Promise<Evidence> {
  return readUserJson(file, CHECKED_EVIDENCE, EVIDENCE_FILE);
}
