import { CARD_REFLECTANCES, cardSize, cardSurface } from "./cardFace.ts";
import type { CardPlacement } from "./cardFace.ts";
import type { FrameSize, RowPainter } from "./frame.ts";
import { framePixels } from "./frame.ts";
import type { Observer } from "./scanner.ts";

/** Subsamples along one side of a pixel of the card. */
const CARD_SUBSAMPLES = 4;

/** Paints the card over what lies below it. */
export function paintCard(frame: FrameSize, card: CardPlacement, observer: Observer): RowPainter {
  const [width] = framePixels(frame);
  const pixelMm = 25.4 / frame.dpi;
  const colours = CARD_REFLECTANCES.map(observer);
  const surface = cardSurface(card);
  const reach = Math.hypot(...cardSize(card.pitchMm)) / 2 + pixelMm;
  const first = Math.max(0, Math.floor((card.middle[0] - reach) / pixelMm));
  const last = Math.min(width - 1, Math.ceil((card.middle[0] + reach) / pixelMm));
  return (y, out) => {
    if (Math.abs((y + 0.5) * pixelMm - card.middle[1]) > reach) return;
    for (let x = first; x <= last; x++) {
      const bed = [out[3 * x], out[3 * x + 1], out[3 * x + 2]];
      const sum = [0, 0, 0];
      for (let j = 0; j < CARD_SUBSAMPLES; j++)
        for (let i = 0; i < CARD_SUBSAMPLES; i++) {
          const at = surface(
            (x + (i + 0.5) / CARD_SUBSAMPLES) * pixelMm,
            (y + (j + 0.5) / CARD_SUBSAMPLES) * pixelMm,
          );
          const colour = at < 0 ? bed : colours[at];
          for (let c = 0; c < 3; c++) sum[c] += colour[c];
        }
      for (let c = 0; c < 3; c++) out[3 * x + c] = sum[c] / CARD_SUBSAMPLES ** 2;
    }
  };
}
