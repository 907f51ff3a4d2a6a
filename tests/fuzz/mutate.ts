import { crc32 } from "node:zlib";
import type { Random } from "../../src/numeric/random.ts";

/** Bytes that readers are tempted by: ends of ranges, line ends, quotes, marks of formats. */
const TEMPTING = [
  0, 1, 0x0a, 0x0d, 0x22, 0x2c, 0x5c, 0x7b, 0x7f, 0x80, 0xd8, 0xd9, 0xda, 0xfe, 0xff,
];

function flipBits(bytes: Buffer, random: Random): void {
  for (let left = 1 + random.below(8); left > 0; left--)
    bytes[random.below(bytes.length)] ^= 1 << random.below(8);
}

function setBytes(bytes: Buffer, random: Random): void {
  for (let left = 1 + random.below(6); left > 0; left--)
    bytes[random.below(bytes.length)] = TEMPTING[random.below(TEMPTING.length)];
}

/** Headers are short and decide most: half of all damage is aimed at the first kilobyte. */
function aimed(bytes: Buffer, random: Random): Buffer {
  return random.below(2) === 0 ? bytes.subarray(0, 1024) : bytes;
}

/** A damaged copy: bits flipped, bytes set, cut short, a piece missing, doubled, zeroed, or taken from another file. */
export function mutateBytes(original: Buffer, donor: Buffer, random: Random): Buffer {
  const bytes = Buffer.from(original);
  const at = random.below(bytes.length);
  const length = 1 + random.below(Math.min(bytes.length, 1 << random.below(13)));
  const rest = bytes.subarray(at + length);
  switch (random.below(8)) {
    case 0:
    case 1:
      flipBits(aimed(bytes, random), random);
      return bytes;
    case 2:
      setBytes(aimed(bytes, random), random);
      return bytes;
    case 3:
      return bytes.subarray(0, at);
    case 4:
      return Buffer.concat([bytes.subarray(0, at), rest]);
    case 5:
      return Buffer.concat([bytes.subarray(0, at + length), bytes.subarray(at)]);
    case 6:
      return bytes.fill(0, at, Math.min(bytes.length, at + length));
    default: {
      const from = random.below(donor.length);
      return Buffer.concat([bytes.subarray(0, at), donor.subarray(from, from + length), rest]);
    }
  }
}

/** The same PNG with every check sum made right, so that the damage reaches what lies behind the check. */
export function mendPngChecks(png: Buffer): Buffer {
  const bytes = Buffer.from(png);
  for (let at = 8; at + 12 <= bytes.length;) {
    const length = bytes.readUInt32BE(at);
    const end = at + 8 + length;
    if (end + 4 > bytes.length) break;
    bytes.writeUInt32BE(crc32(bytes.subarray(at + 4, end)), end);
    at = end + 4;
  }
  return bytes;
}

/** Values that a schema must know what to do with. */
const ODD_VALUES: readonly unknown[] = [null, true, 0, -1, 1.5, 1e308, -1e-308, 2 ** 53, "", "x", "\u202ered\u001b[2J", "__proto__", [], {}, [[]], [null, null, null, null]]; // prettier-ignore

/** Every place in a JSON value that can be changed: its holder and its key. */
function placesIn(value: unknown, found: [Record<string, unknown>, string][] = []) {
  if (typeof value === "object" && value !== null)
    for (const key of Object.keys(value)) {
      const holder = value as Record<string, unknown>;
      found.push([holder, key]);
      placesIn(holder[key], found);
    }
  return found;
}

/** Whole JSON of a wrong form: entries replaced by odd values, left out, doubled or nested deep. */
export function mutateJson(original: Buffer, random: Random): Buffer {
  const json: unknown = JSON.parse(original.toString("utf8"));
  for (let left = 1 + random.below(3); left > 0; left--) {
    const places = placesIn(json);
    if (places.length === 0) break;
    const [holder, key] = places[random.below(places.length)];
    const number = holder[key];
    switch (random.below(6)) {
      case 0:
        if (Array.isArray(holder)) holder.splice(Number(key), 1);
        else Reflect.deleteProperty(holder, key);
        break;
      case 1:
        if (Array.isArray(holder)) holder.push(number);
        else holder[`${key}${key}`] = number;
        break;
      case 2:
        holder[key] = Array.from({ length: random.below(12) }, () => number);
        break;
      case 3:
        if (typeof number === "number") holder[key] = -number * 10 ** random.below(12);
        else holder[key] = { [key]: number };
        break;
      default:
        holder[key] = structuredClone(ODD_VALUES[random.below(ODD_VALUES.length)]);
    }
  }
  return Buffer.from(JSON.stringify(json));
}
