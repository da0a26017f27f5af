/** The same filter run for several kappas, weighted by how well each foretold what was read (Magill 1965). */
import { checkRange, NotKnown } from "./errors";
import type { DomainEvent, Observation } from "./events";
import {
  advanceAll,
  type Estimate,
  type Innovation,
  innovations,
  type Model,
  prior,
  totalLeft,
} from "./filter";

/** One model under several kappas, with equal prior weights. */
export interface Bank {
  readonly model: Model;
  readonly kappas: readonly number[];
  readonly estimates: readonly Estimate[];
}

/** A mean with one standard uncertainty. */
export interface Value {
  readonly mean: number;
  readonly u: number;
}

export interface BankPrior {
  readonly model: Model;
  readonly kappas: readonly number[];
}

/** The bank before the first entry; needs at least one kappa, each >= 0. */
export function bankPrior({ model, kappas }: BankPrior): Bank {
  if (kappas.length === 0) throw new NotKnown("kappas", "the bank");
  for (const kappa of kappas) checkRange("kappa", kappa, { low: 0 });
  const first = prior({ model });
  return { model, kappas, estimates: kappas.map(() => first) };
}

export interface BankAdvance {
  readonly bank: Bank;
  readonly event: DomainEvent;
}

/** The bank after one event; the one before stays as it is and can be continued again. */
export function bankAdvance({ bank, event }: BankAdvance): Bank {
  const { model, kappas } = bank;
  const estimates = advanceAll({ model, kappas, estimates: bank.estimates, event });
  return { model, kappas, estimates };
}

/** Weight of each kappa: proportional to exp(log-likelihood - greatest), the sum is 1. */
export function bankWeights({ bank }: { readonly bank: Bank }): number[] {
  const best = Math.max(...bank.estimates.map((estimate) => estimate.log_likelihood));
  const raw = bank.estimates.map((estimate) => Math.exp(estimate.log_likelihood - best));
  const total = raw.reduce((sum, weight) => sum + weight, 0);
  return raw.map((weight) => weight / total);
}

export interface Mixture {
  readonly means: readonly number[];
  readonly variances: readonly number[];
  readonly weights: readonly number[];
}

/** Mean and u of a mixture, in the sum form; for display only: probabilities are weighted sums of probabilities. */
export function mixture({ means, variances, weights }: Mixture): Value {
  const mean = weights.reduce((sum, w, j) => sum + w * means[j]!, 0);
  const variance = weights.reduce((sum, w, j) => sum + w * (variances[j]! + (means[j]! - mean) ** 2), 0);
  return { mean, u: Math.sqrt(Math.max(variance, 0)) };
}

export interface BankInnovation {
  readonly bank: Bank;
  readonly event: Observation;
}

/** What an observation says against the mixture, with the weights as they were before it. */
export function bankInnovation({ bank, event }: BankInnovation): Innovation {
  const seen = innovations({ model: bank.model, estimates: bank.estimates, event });
  const mixed = mixture({
    means: seen.map((one) => one.nu_l),
    variances: seen.map((one) => one.s_l2),
    weights: bankWeights({ bank }),
  });
  return { nu_l: mixed.mean, s_l2: mixed.u ** 2, z: mixed.mean / mixed.u };
}

/** Every level and rate of the mixture, in the state's order. */
export function bankState({ bank }: { readonly bank: Bank }): Value[] {
  const weights = bankWeights({ bank });
  return bank.estimates[0]!.mean.map((_, k) =>
    mixture({
      means: bank.estimates.map((one) => one.mean[k]!),
      variances: bank.estimates.map((one) => one.cov[k]![k]!),
      weights,
    }),
  );
}

/** Litres in all tanks of the mixture. */
export function bankTotal({ bank }: { readonly bank: Bank }): Value {
  const left = bank.estimates.map((estimate) => totalLeft({ model: bank.model, estimate }));
  return mixture({
    means: left.map(([mean]) => mean),
    variances: left.map(([, variance]) => variance),
    weights: bankWeights({ bank }),
  });
}
