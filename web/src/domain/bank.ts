/** The same filter run for several kappas, weighted by how well each foretold what was read (Magill 1965). */
import { checkRange, NotKnown } from "./errors";
import type { DomainEvent, Observation } from "./events";
import { type Estimate, type Innovation, type Model, prior } from "./filter";
import { innovationMixed, mixed, sumMixed, weightsOf } from "./mixed";
import { bankOf, stackAdvance, stackOf } from "./stack";

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
  const stack = stackOf(bank);
  stackAdvance(stack, event);
  return bankOf(stack);
}

/** Weight of each kappa: proportional to exp(log-likelihood - greatest), the sum is 1. */
export function bankWeights({ bank }: { readonly bank: Bank }): number[] {
  return weightsOf(stackOf(bank));
}

export interface Mixture {
  readonly means: readonly number[];
  readonly variances: readonly number[];
  readonly weights: readonly number[];
}

/** Mean and u of a mixture, in the sum form; for display only: probabilities are weighted sums of probabilities. */
export function mixture({ means, variances, weights }: Mixture): Value {
  return mixed(weights, means, variances);
}

export interface BankInnovation {
  readonly bank: Bank;
  readonly event: Observation;
}

/** What an observation says against the mixture, with the weights as they were before it. */
export function bankInnovation({ bank, event }: BankInnovation): Innovation {
  return innovationMixed(stackOf(bank), event);
}

/** Every level and rate of the mixture, in the state's order. */
export function bankState({ bank }: { readonly bank: Bank }): Value[] {
  const stack = stackOf(bank);
  const weights = weightsOf(stack);
  return Array.from({ length: stack.size }, (_, k) => sumMixed(stack, k, 1, weights));
}

/** Litres in all tanks of the mixture. */
export function bankTotal({ bank }: { readonly bank: Bank }): Value {
  return sumMixed(stackOf(bank), 0, bank.model.tank_ids.length);
}
