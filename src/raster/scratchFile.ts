import { closeSync, openSync, readdirSync, statfsSync, unlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A file for bytes that nobody else is to see. */
export interface ScratchFile {
  readonly path: string;
  /** Opens what was written for reading, and takes its name away where the system allows that. */
  open(): number;
  /** Gives the room back. May be repeated. */
  close(): void;
}

const PREFIX = "lastrinse-scratch-";

/** Room that is left on the disk for others. Bytes. */
const SPARED = 500e6;

let made = 0;
const named = new Set<string>();

/**
 * Makes an empty scratch file in the system's folder for such files. Once opened it loses its name, so the system takes it back
 * whatever becomes of this process. Until then, and where the system doesn't allow that, the name goes with `close`, at the
 * latest when the process ends, or after a crash when the next process makes its first scratch file.
 * @param bytes To be written into it.
 * @returns null where there is no such room.
 */
export function scratchFile(bytes: number): ScratchFile | null {
  const folder = tmpdir();
  try {
    const { bavail, bsize } = statfsSync(folder);
    if (bavail * bsize < bytes + SPARED) return null;
    if (made === 0) {
      removeOrphans(folder);
      process.once("exit", () => {
        for (const path of named) removed(path);
      });
    }
    // The ending names the form that the image library writes.
    const path = join(folder, `${PREFIX}${process.pid}-${(made += 1)}.v`);
    closeSync(openSync(path, "wx", 0o600));
    named.add(path);
    return heldFile(path);
  } catch {
    return null;
  }
}

function heldFile(path: string): ScratchFile {
  let fd: number | null = null;
  const letName = (): void => {
    if (removed(path)) named.delete(path);
  };
  return {
    path,
    open() {
      fd ??= openSync(path, "r");
      letName();
      return fd;
    },
    close() {
      if (fd !== null) closeSync(fd);
      fd = null;
      if (named.has(path)) letName();
    },
  };
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
