import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";

/** A folder that lives as long as the test file. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "lastrinse-test-"));
  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  return folder;
}
