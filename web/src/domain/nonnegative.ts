/** Masses below zero: the most probable masses that are not, which is more than clipping (maths C.6). */
import { cholesky, choSolve, type Matrix } from "./linalg";
import type { Reconciled } from "./posterior";

export const SMALL_SHARE = 0.1; // of the planned mass
const ROUNDING = 1e-9;
const TIED = 1 - 1e-9; // masses with at least this correlation are one (assumed)

/** A mass of the unconstrained update, and in the most probable answer without negative masses. */
export interface Possible {
  readonly id: string;
  readonly now_kg: number;
  readonly possible_kg: number;
}

interface Of {
  readonly posterior: Reconciled;
  /** Masses that may be negative, such as what is not on the list. */
  readonly free?: readonly string[];
}

/** Masses for which the Gaussian is out of its range: below 0, or below 2 u+ and a tenth of the plan. */
export function doubtfulMasses({ posterior, free = [] }: Of): string[] {
  return masses(posterior, free).filter((name) => {
    const planned = posterior.prior.get(name)!.mean;
    const [now, u] = [posterior.mean[posterior.order.get(name)!]!, Math.sqrt(posterior.variance(name))];
    return now < -ROUNDING || (now < 2 * u && now < SMALL_SHARE * planned);
  });
}

/** The most probable masses >= 0 given plan and readings: active sets as in Lawson & Hanson 1974 (from memory). */
export function nonnegativeMasses({ posterior, free = [] }: Of): Possible[] {
  const names = masses(posterior, free);
  const places = names.map((name) => posterior.order.get(name)!);
  const now = places.map((place) => posterior.mean[place]!);
  let state: Held = { held: [], pull: [], columns: [] };
  let theta = now;
  for (let turn = 0; turn <= 3 * names.length; turn++) {
    const { held, pull, columns } = state;
    theta = now.map((value, i) =>
      held.includes(i) ? 0 : columns.reduce((sum, column, a) => sum + column[i]! * pull[a]!, value),
    );
    const lowest = theta.reduce((best, value, i) => (value < (theta[best] ?? 0) ? i : best), -1);
    if (lowest < 0 || theta[lowest]! >= -ROUNDING) break;
    const whole = posterior.column(names[lowest]!);
    const added = places.map((place) => whole[place]!);
    // of copies that move as one the last to be below zero is the first to reach it
    const apart = (i: number, k: number) => added[i]! < TIED * Math.sqrt(added[lowest]! * columns[k]![i]!);
    const stay = held.map(apart);
    const kept = <T>(list: readonly T[]): T[] => list.filter((_, k) => stay[k]);
    state = release(now, {
      held: [...kept(held), lowest],
      pull: [...kept(pull), 0],
      columns: [...kept(columns), added],
    });
  }
  return names.map((id, i) => ({ id, now_kg: now[i]!, possible_kg: Math.max(theta[i]!, 0) }));
}

/** Which masses are held at 0, how hard each is pulled there, and the covariance of all masses with it. */
interface Held {
  readonly held: readonly number[];
  readonly pull: readonly number[];
  readonly columns: Matrix;
}

/** Pulls that hold these masses at 0; one that would have to push instead is let go, the nearest first. */
function release(now: readonly number[], start: Held): Held {
  let { held, pull, columns } = start;
  while (held.length > 0) {
    const among = held.map((i) => columns.map((column) => column[i]!));
    const wanted = choSolve(
      cholesky(among),
      held.map((i) => -now[i]!),
    );
    if (Math.min(...wanted) > 0) return { held, pull: wanted, columns };
    const steps = wanted.map((w, a) => (w > 0 ? 2 : pull[a]! > w ? pull[a]! / (pull[a]! - w) : 0));
    const step = Math.min(...steps);
    const out = steps.indexOf(step);
    const kept = (_: unknown, a: number) => a !== out;
    pull = pull.map((value, a) => value + step * (wanted[a]! - value)).filter(kept);
    held = held.filter(kept);
    columns = columns.filter(kept);
  }
  return { held, pull, columns };
}

function masses(posterior: Reconciled, free: readonly string[]): string[] {
  return [...posterior.prior].flatMap(([name, one]) =>
    one.kind === "mass" && !free.includes(name) ? [name] : [],
  );
}
