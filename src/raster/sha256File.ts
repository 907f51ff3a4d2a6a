import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";

/** SHA-256 of a file's bytes, lower-case hex; read as a stream, never whole. */
export async function sha256File(file: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(file)) hash.update(chunk as Buffer);
  return hash.digest("hex");
}
