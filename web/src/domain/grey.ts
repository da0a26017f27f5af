/** Grey water: what the people's use has run into its tank since it was last emptied or read. */
import { bankState, bankWeights, type Value } from "./bank";
import { checkRange } from "./errors";
import { personDays } from "./water";
import type { WaterLog } from "./water_log";

/** Of the water used, where a record names a grey tank and no share (assumed). */
export const GREY_FRACTION = 0.8;

export interface GreyFilled {
  readonly log: WaterLog;
  readonly from_s: number;
  readonly until_s: number;
  readonly fraction: number;
}

/** Litres that ran into a grey tank between two instants: fraction x rate x person-days, with u. */
export function greyFilled({ log, from_s, until_s, fraction }: GreyFilled): Value {
  checkRange("fraction", fraction, { low: 0, high: 1 });
  const amount = personDays({ presences: log.setup.presences, from_s, until_s });
  const { bank } = log.journal.state.main;
  const rate = bankState({ bank }).at(-1)!;
  const weights = bankWeights({ bank });
  const unsteady = bank.kappas.reduce(
    (s, kappa, j) => s + weights[j]! * (kappa * log.model.rate0[0]!) ** 2,
    0,
  );
  const variance = (amount * rate.u) ** 2 + amount * log.model.settings.ell * unsteady;
  return { mean: fraction * amount * rate.mean, u: fraction * Math.sqrt(variance) };
}
