import { z } from "zod";
import { readJson } from "../json/readJson.ts";
import type { Evidence } from "./evidence.ts";
import { readEvidence } from "./readEvidence.ts";

/**
 * Reads an evidence file.
 * @throws {LastrinseError} `unreadable`, `bad-json` naming each wrong entry by its path.
 */
export async function readEvidenceFile(file: string): Promise<Evidence> {
  const json = await readJson(
    file,
    z.unknown(),
    "an evidence file (schema lastrinse.evidence, version 1)",
    "Write it as JSON, as the README shows.",
  );
  return readEvidence(json, file);
}
