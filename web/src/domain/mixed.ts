/** What a stack of estimates says, mixed by the weights of its kappas. */
import type { Value } from "./bank";
import type { Observation } from "./events";
import type { Innovation } from "./filter";
import { countOf, logLikelihood, type Stack, stackInnovations, startOf } from "./stack";

/** Weight of each kappa: proportional to exp(log-likelihood - greatest), the sum is 1. */
export function weightsOf(stack: Stack): number[] {
  const weights: number[] = [];
  let best = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < countOf(stack); j++) best = Math.max(best, logLikelihood(stack, j));
  let total = 0;
  for (let j = 0; j < countOf(stack); j++) {
    const raw = Math.exp(logLikelihood(stack, j) - best);
    weights.push(raw);
    total += raw;
  }
  for (let j = 0; j < weights.length; j++) weights[j] = weights[j]! / total;
  return weights;
}

/** Mean and u of a mixture in the sum form. */
export function mixed(
  weights: readonly number[],
  means: readonly number[],
  variances: readonly number[],
): Value {
  let [mean, variance] = [0, 0];
  for (let j = 0; j < weights.length; j++) mean += weights[j]! * means[j]!;
  for (let j = 0; j < weights.length; j++)
    variance += weights[j]! * (variances[j]! + (means[j]! - mean) ** 2);
  return { mean, u: Math.sqrt(Math.max(variance, 0)) };
}

/** Sum of the first `count` states from `first` on: one level or rate, or what is in all tanks. */
export function sumMixed(stack: Stack, first: number, count = 1, weights = weightsOf(stack)): Value {
  const { size: n, values } = stack;
  const [means, variances]: [number[], number[]] = [[], []];
  for (let j = 0; j < weights.length; j++) {
    const at = startOf(stack, j);
    let [mean, variance] = [0, 0];
    for (let a = first; a < first + count; a++) {
      mean += values[at + a]!;
      for (let b = first; b < first + count; b++) variance += values[at + n + a * n + b]!;
    }
    means.push(mean);
    variances.push(variance);
  }
  return mixed(weights, means, variances);
}

/** The mean of one level or rate alone. */
export function meanMixed(stack: Stack, k: number, weights: readonly number[]): number {
  let mean = 0;
  for (let j = 0; j < weights.length; j++) mean += weights[j]! * stack.values[startOf(stack, j) + k]!;
  return mean;
}

/** What an observation says against the mixture, with the weights as they were before it. */
export function innovationMixed(stack: Stack, event: Observation): Innovation {
  const { mean, u } = mixed(weightsOf(stack), ...stackInnovations(stack, event));
  return { nu_l: mean, s_l2: u ** 2, z: mean / u };
}
