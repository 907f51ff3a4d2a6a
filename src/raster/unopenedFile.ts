import { basename } from "node:path";
import { LastrinseError } from "../errors.ts";

/** What the system's error codes mean to the user, and what to do. */
const CAUSES: Readonly<Record<string, readonly [received: string, remedy: string]>> = {
  ENOENT: ["no file of that name", "Check the name and the folder."],
  ENOTDIR: ["no file of that name", "Check the name and the folder."],
  EACCES: ["a file that you may not read", "Give yourself the right to read it, or copy it."],
  EPERM: ["a file that you may not read", "Give yourself the right to read it, or copy it."],
};

/** The refusal of a path that can't be opened or read as a file. */
export function unopenedFile(file: string, error: unknown): LastrinseError {
  const code = error instanceof Error && "code" in error ? String(error.code) : String(error);
  const [received, remedy] = CAUSES[code] ?? [
    `the error ${code}`,
    "Check the disk or the network share, and copy the file here.",
  ];
  return new LastrinseError(
    "unreadable",
    `Expected a picture in ${basename(file)}, received ${received}.`,
    { remedy, input: file, cause: error },
  );
}
