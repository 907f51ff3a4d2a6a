import type { Command } from "commander";
import { LastrinseError } from "../src/errors.ts";
import { readStation } from "../src/jar/place/readStation.ts";
import type { JarShape, Station } from "../src/jar/place/station.ts";
import { numberBetween, oneOf } from "./parse.ts";

export interface JarShapeOptions {
  readonly jar?: "flat" | "round";
  readonly insideMm?: number;
  readonly passes?: 1 | 2;
}

/** The jar's shape, as `jar` and `open` take it. */
export function addJarShape(command: Command): Command {
  return command
    .option("--jar <shape>", "flat or round", oneOf("flat", "round"))
    .option(
      "--inside-mm <mm>",
      "inside measure front to back; inner diameter of a round jar",
      numberBetween(1, 500),
    )
    .option("--passes <n>", "1: backing lit past the jar; 2: lit through it", (text) =>
      Number(oneOf("1", "2")(text)),
    );
}

/**
 * The station of a set-up, or the jar's shape before the printed backing.
 * @throws {LastrinseError} `wrong-use` where neither is given whole: a jar's measures are never assumed.
 */
export async function geometryOf(
  options: JarShapeOptions & { readonly station?: string },
): Promise<Station | JarShape> {
  if (options.station !== undefined) return readStation(options.station);
  const { jar, insideMm, passes } = options;
  if (jar !== undefined && insideMm !== undefined && passes !== undefined)
    return { jar, insideMm, passes };
  throw new LastrinseError(
    "wrong-use",
    "Expected --station FILE, or --jar, --inside-mm and --passes together: the jar's measures are never assumed.",
    {
      remedy:
        "Measure the jar inside, front to back (a round one: inner diameter), and give for example: --jar flat --inside-mm 50 --passes 1",
      input: "--jar",
    },
  );
}
