import { LastrinseError } from "../errors.ts";
import { limeBath } from "./limeBath.ts";

/** A share of limewater that gives a wanted pH, each 0..1. */
export interface ShareForPh {
  readonly share: number;
  /** Shares whose computed pH lies the tolerance below and above what is wanted; no lower than 0 and no higher than what dissolves. */
  readonly low: number;
  readonly high: number;
}

/** Halvings of the share: below the last bit of what a share of 1e-6 is told by. */
const HALVINGS = 60;

/** A share below this is water: its pH is that of the water. */
const LEAST_SHARE = 1e-9;

/** Nearer to what can be reached than this is at it. */
const AT_LIMIT_PH = 1e-6;

/**
 * The share of a stock saturated at 25 C that gives a bath of a wanted pH, by the model of `limeBath` turned round: its pH only rises with
 * the share, so halving can't miss. The tolerance in pH goes through the same model to a range of shares.
 * @param ph Wanted, at the bath's temperature.
 * @param temperatureC 0..100.
 * @throws {LastrinseError} `wrong-use` where no share gives that pH: not above that of pure water, or above that of the stock itself.
 */
export function shareForPh(ph: number, temperatureC: number): ShareForPh {
  const water = limeBath(0, temperatureC).ph;
  const stock = limeBath(1, temperatureC).ph;
  if (!(ph > water && ph <= stock + AT_LIMIT_PH))
    throw new LastrinseError(
      "wrong-use",
      `Expected a pH above ${water.toFixed(2)} (pure water) and up to ${stock.toFixed(2)} (limewater undiluted) at ${String(temperatureC)} C, received ${String(ph)}: no share of limewater gives that.`,
      {
        remedy:
          ph > stock
            ? "Give a lower pH: limewater does not reach higher at this temperature. For washing pulp paper 7.5 to 8.5 is usual."
            : "Give a pH above that of water, usually 7.5 to 8.5; limewater can't make a bath neutral or acid.",
        input: "--ph",
      },
    );
  const share = solve(ph, temperatureC);
  const { phTolerance } = limeBath(share, temperatureC);
  return {
    share,
    low: ph - phTolerance <= water ? 0 : solve(ph - phTolerance, temperatureC),
    high: solve(Math.min(stock, ph + phTolerance), temperatureC),
  };
}

/** Least share that reaches a pH, on a logarithmic scale. */
function solve(ph: number, temperatureC: number): number {
  let low = Math.log(LEAST_SHARE);
  let high = 0;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (limeBath(Math.exp(middle), temperatureC).ph < ph) low = middle;
    else high = middle;
  }
  return Math.exp(high);
}
