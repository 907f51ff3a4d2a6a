import type { Warning } from "../errors.ts";
import type { InkShare } from "../results/jarResult.ts";
import { likelyShare } from "./likelyShare.ts";
import type { Blot, Palette } from "./palette.ts";
import { type Interval, possibleShare } from "./possibleShare.ts";
import type { Range } from "./predictFade.ts";
import { type BathReading, showsColour } from "./reading.ts";
import { contradictionText, shareCondition, shareRemedy } from "./shareText.ts";
import { shareWord } from "./shareWord.ts";

export type { InkShare };

export interface ReadBath {
  readonly inkShare: InkShare;
  /** Peak absorbance per cm by ink id and "soil": 90 % range where a likely one exists, else all that is possible with its centre. */
  readonly components: ReadonlyMap<string, Range>;
  /** Inks whose fast blotter the photo contradicts. */
  readonly contradicted: readonly string[];
  readonly warnings: readonly Warning[];
}

/**
 * What one jar reading says about soil and inks.
 * @param blots Blotter result by ink id, for the words.
 */
export function inkShareOf(
  reading: BathReading,
  palette: Palette,
  blots: ReadonlyMap<string, Blot>,
): ReadBath {
  const possible = possibleShare(reading, palette);
  const { contradiction } = possible;
  // Evidence that the photo contradicts can't carry a likely range.
  const likely = contradiction === null ? likelyShare(reading, palette) : null;
  const share: Interval | null = likely && [
    Math.max(possible.share[0], likely.share.low),
    Math.min(possible.share[1], likely.share.high),
  ];
  const colour = showsColour(reading);
  const word = colour ? shareWord(share ?? possible.share) : "not decidable";
  const components =
    likely?.amounts ??
    new Map(
      [...possible.amounts].map(([id, [low, high]]) => [id, { low, mid: (low + high) / 2, high }]),
    );
  return {
    inkShare: {
      possible: possible.share,
      likely: share !== null && share[0] <= share[1] ? share : null,
      condition: shareCondition(palette),
      word,
      remedy: colour
        ? shareRemedy(word, palette, blots)
        : "This bath can't be told from the fresh one: a share of nothing has no meaning.",
    },
    components,
    contradicted: contradiction?.inks ?? [],
    warnings:
      contradiction === null
        ? []
        : [{ code: "evidence-contradicted", message: contradictionText(contradiction) }],
  };
}
