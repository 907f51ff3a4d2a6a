import { closeSync, openSync, readdirSync, statfsSync, unlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A file for bytes that nobody else is to see. */
export interface ScratchFile {
  readonly fd: number;
  /** Gives the room back. Once. */
  close(): void;
}

const PREFIX = "lastrinse-scratch-";

/** Room that is left on the disk for others. Bytes. */
const SPARED = 500e6;

let opened = 0;

/**
 * Opens a scratch file in the system's folder for such files. It loses its name at once, so the system takes it back whatever
 * becomes of this process; where the system doesn't allow that, the name goes with `close`, or after a crash when the next
 * process opens its first scratch file.
 * @param bytes To be written into it.
 * @returns null where there is no such room.
 */
export function scratchFile(bytes: number): ScratchFile | null {
  const folder = tmpdir();
  try {
    const { bavail, bsize } = statfsSync(folder);
    if (bavail * bsize < bytes + SPARED) return null;
    if (opened === 0) removeOrphans(folder);
    const path = join(folder, `${PREFIX}${process.pid}-${(opened += 1)}`);
    const fd = openSync(path, "wx+", 0o600);
    const nameless = removed(path);
    return {
      fd,
      close() {
        closeSync(fd);
        if (!nameless) removed(path);
      },
    };
  } catch {
    return null;
  }
}

function removed(path: string): boolean {
  try {
    unlinkSync(path);
    return true;
  } catch {
    return false;
  }
}

/** Scratch files whose process is gone. */
function removeOrphans(folder: string): void {
  for (const name of readdirSync(folder)) {
    const pid = name.startsWith(PREFIX) ? Number.parseInt(name.slice(PREFIX.length), 10) : NaN;
    if (pid > 0 && !isRunning(pid)) removed(join(folder, name));
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return !(error instanceof Error && "code" in error && error.code === "ESRCH");
  }
}
