import { LastrinseError } from "../errors.ts";
import { readSmallFile } from "../json/readSmallFile.ts";
import type { Card } from "./card.ts";
import { cardFromJson } from "./cardFromJson.ts";
import { cardFromReferenceText } from "./cardFromReferenceText.ts";
import { cardNamed, CARDS, DEFAULT_CARD_NAME } from "./cards.ts";

export interface LoadCardOptions {
  /** Refuse a reference file in which something had to be assumed or repaired. Default false. */
  readonly strict?: boolean;
}

/** Reference files hold some kilobytes. */
const LARGEST_FILE_BYTES = 8 * 2 ** 20;

/**
 * A card by its name, or from the user's own reference file: CGATS.17, ISO 28178 or IT8.7 text, or JSON.
 * @param nameOrFile Default: {@link DEFAULT_CARD_NAME}. A built-in name goes before a file of that name.
 * @throws {LastrinseError} `wrong-use` for a word that is neither name nor file, `unreadable` for a file that can't be read or
 * lacks values, `bad-json`.
 */
export async function loadCard(
  nameOrFile: string = DEFAULT_CARD_NAME,
  { strict = false }: LoadCardOptions = {},
): Promise<Card> {
  const named = cardNamed(nameOrFile);
  if (named !== undefined) return named;
  const text = decode(await bytesOf(nameOrFile), nameOrFile);
  const card = /^\s*[[{]/.test(text)
    ? cardFromJson(text, nameOrFile)
    : cardFromReferenceText(text, nameOrFile);
  if (strict && card.notes !== undefined && card.notes.length > 0)
    throw new LastrinseError(
      "unreadable",
      `Expected a reference file that leaves nothing to assume (--strict), received ${nameOrFile}: ${card.notes.join(" ")}`,
      { remedy: "Mend the file, or leave --strict away.", input: nameOrFile },
    );
  return card;
}

async function bytesOf(nameOrFile: string): Promise<Uint8Array> {
  let bytes: Uint8Array;
  try {
    bytes = await readSmallFile(nameOrFile);
  } catch (cause) {
    const code = cause instanceof Error && "code" in cause ? cause.code : "";
    const names = CARDS.map((card) => card.name).join(", ");
    if (code === "ENOENT" && /^[\w-]+$/.test(nameOrFile))
      throw new LastrinseError(
        "wrong-use",
        `Expected the name of a card (${names}) or a reference file, received "${nameOrFile}".`,
        { remedy: "See `lastrinse card list` for the names.", input: nameOrFile, cause },
      );
    throw new LastrinseError(
      "unreadable",
      `Expected a reference file, could not read ${nameOrFile}: ${code === "ENOENT" ? "there is no such file" : cause instanceof Error ? cause.message : "failed"}.`,
      { remedy: `Check the path, or name a built-in card: ${names}.`, input: nameOrFile, cause },
    );
  }
  if (bytes.length > LARGEST_FILE_BYTES) throw notText(nameOrFile, `${bytes.length} bytes`);
  return bytes;
}

/** UTF-8, UTF-16 with a byte-order mark, or else Latin-1: older measuring programs write degree signs in it. */
function decode(bytes: Uint8Array, file: string): string {
  const mark = bytes.length >= 2 ? (bytes[0] << 8) | bytes[1] : 0;
  if (mark === 0xfffe) return new TextDecoder("utf-16le").decode(bytes);
  if (mark === 0xfeff) return new TextDecoder("utf-16be").decode(bytes);
  if (bytes.includes(0)) throw notText(file, "binary data");
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("latin1").decode(bytes);
  }
}

function notText(file: string, received: string): LastrinseError {
  return new LastrinseError(
    "unreadable",
    `Expected a reference file of text, received ${received} in ${file}.`,
    {
      remedy: "Give the text or JSON file with the card's values, not a picture or a spreadsheet.",
      input: file,
    },
  );
}
