/** The search behind load advice: depth first over the items, in flat arrays, with bounds that are exact where it ends. */

export const TOLERANCE_KG = 1e-9;

/** By item, option and row. */
type Values = readonly (readonly (readonly number[])[])[];

/**
 * Sums that the items' options make, each with an upper bound, heaviest item first: the limits, then the slots, last
 * what comes off, whose bound the search sets. Only limits have a variance. `pairs_kg2` is twice the covariance of an
 * option with each option of each item before it; `moves` is what an option counts as, the first of an item as none.
 */
export interface Rows {
  readonly bounds_kg: readonly number[];
  readonly fixed_kg: readonly number[];
  readonly variance_kg2: readonly number[];
  readonly loads_kg: Values;
  readonly variances_kg2: Values;
  readonly pairs_kg2: readonly (readonly (readonly Values[number][])[])[];
  readonly moves: readonly (readonly number[])[];
}

/** A choice that meets every bound; `equals` where another one is as good. */
export interface Found {
  readonly picks: readonly number[];
  readonly moves: number;
  readonly off_kg: number;
  readonly equals: boolean;
}

export interface LeastOff {
  readonly most_moves: number;
  /** Less off than this. */
  readonly below_kg?: number;
  /** No more off than this. */
  readonly at_most_kg?: number;
}

/** One problem, asked several times; `spent` once the nodes are used up, and the last answer is not proven. */
export class Search {
  spent = false;
  private left: number;
  private best: Found | null = null;
  private allowed = 0;
  /** How many items there are. */
  readonly count: number;
  private readonly rows: number;
  private readonly limits: number;
  /** Where the options of each item begin. */
  private readonly first: Int32Array;
  /** What each option counts as. */
  private readonly moves: Int32Array;
  /** One more than all moves together. */
  private readonly width: number;
  private readonly loads: Float64Array;
  private readonly own: Float64Array;
  /** For an option and one of an item before it, the variance that they add together; empty without shared errors. */
  private readonly pairs: Float64Array;
  private readonly least: Float64Array;
  private readonly calm: Float64Array;
  private readonly bounds: Float64Array;
  private readonly sums: Float64Array;
  private readonly variances: Float64Array;
  private readonly picks: Int32Array;

  constructor(
    given: Rows,
    private readonly z: number,
    private readonly most: number,
  ) {
    this.left = most;
    this.count = given.loads_kg.length;
    this.rows = given.fixed_kg.length;
    this.limits = given.variance_kg2.length;
    this.first = starts(given.loads_kg);
    this.loads = flat(given.loads_kg);
    this.own = flat(given.variances_kg2);
    this.pairs = flatPairs(given, this.first);
    this.moves = Int32Array.from(given.moves.flat());
    this.width = widthOf(given.moves);
    this.least = leastSums(given.loads_kg, given.moves, this.rows);
    this.calm = leastSums(atLeast(given), given.moves, this.limits);
    this.bounds = Float64Array.from([...given.bounds_kg.map((bound) => bound + TOLERANCE_KG), Infinity]);
    this.sums = new Float64Array((this.count + 1) * this.rows);
    this.variances = new Float64Array((this.count + 1) * this.limits);
    this.sums.set(given.fixed_kg);
    this.variances.set(given.variance_kg2);
    this.picks = new Int32Array(this.count);
  }

  /** By how much each limit is missed even where every item is at its best for that limit; >= 0. */
  shortKg(): number[] {
    const { count } = this;
    return Array.from({ length: this.limits }, (_, k) => {
      const at = k * (count + 1) * this.width + this.width - 1;
      const u = Math.sqrt(Math.max(this.variances[k]! + this.calm[at]!, 0));
      const least = this.sums[k]! + this.least[at]! + this.z * u;
      return Math.max(least - (this.bounds[k]! - TOLERANCE_KG), 0);
    });
  }

  /** As many nodes again. */
  renew(): void {
    this.left = this.most;
    this.spent = false;
  }

  /** The choice with at most so many moves from which the least comes off, first found first; null if none. */
  leastOff({ most_moves, below_kg, at_most_kg = Infinity }: LeastOff): Found | null {
    this.bounds[this.rows - 1] = below_kg === undefined ? at_most_kg + TOLERANCE_KG : below_kg - TOLERANCE_KG;
    this.best = null;
    this.allowed = most_moves;
    this.go(0, most_moves);
    return this.best;
  }

  private go(d: number, left: number): void {
    if (d === this.count) {
      this.keep(this.allowed - left);
      return;
    }
    const [from, to] = [this.first[d]!, this.first[d + 1]!];
    for (let option = from; option < to; option++) {
      const rest = left - this.moves[option]!;
      if (this.spent) return;
      if (rest < 0) continue;
      if (this.left === 0) {
        this.spent = true;
        return;
      }
      this.left--;
      if (!this.fits(d, option, rest) || !this.isSure(d, option, rest)) continue;
      this.picks[d] = option;
      this.go(d + 1, rest);
    }
  }

  /** Whether every sum can still stay below its bound. */
  private fits(d: number, option: number, rest: number): boolean {
    const { rows, loads, sums, least, bounds } = this;
    const { width, count } = this;
    const [here, next, added] = [d * rows, (d + 1) * rows, option * rows];
    for (let q = 0; q < rows; q++) {
      const sum = sums[here + q]! + loads[added + q]!;
      sums[next + q] = sum;
      if (sum + least[(q * (count + 1) + d + 1) * width + rest]! > bounds[q]!) return false;
    }
    return true;
  }

  /** The same with z times the least u that there can be. */
  private isSure(d: number, option: number, rest: number): boolean {
    const { limits, rows, own, variances, sums, least, calm, bounds, z } = this;
    const { width, count } = this;
    const [here, next, added] = [d * limits, (d + 1) * limits, option * limits];
    for (let k = 0; k < limits; k++) {
      const variance = variances[here + k]! + own[added + k]! + this.together(d, option, k);
      variances[next + k] = variance;
      const at = (k * (count + 1) + d + 1) * width + rest;
      const u = Math.sqrt(Math.max(variance + calm[at]!, 0));
      if (sums[(d + 1) * rows + k]! + least[at]! + z * u > bounds[k]!) return false;
    }
    return true;
  }

  /** What an option adds to a variance together with the items before it. */
  private together(d: number, option: number, k: number): number {
    const { pairs, picks, limits } = this;
    if (pairs.length === 0) return 0;
    const at = option * this.first[this.count]!;
    let sum = 0;
    for (let e = 0; e < d; e++) sum += pairs[(at + picks[e]!) * limits + k]!;
    return sum;
  }

  /** A choice that holds: the best so far, or as good as it, and then only better ones are looked for. */
  private keep(moves: number): void {
    const off_kg = this.sums[this.count * this.rows + this.rows - 1]!;
    const { best } = this;
    if (best !== null && Math.abs(off_kg - best.off_kg) <= TOLERANCE_KG) {
      this.best = { ...best, equals: true };
      this.bounds[this.rows - 1] = best.off_kg - TOLERANCE_KG;
      return;
    }
    const picks = Array.from(this.picks, (option, d) => option - this.first[d]!);
    this.best = { picks, moves, off_kg, equals: false };
    this.bounds[this.rows - 1] = off_kg + TOLERANCE_KG;
  }
}

function starts(values: Values): Int32Array {
  const out = new Int32Array(values.length + 1);
  for (const [d, options] of values.entries()) out[d + 1] = out[d]! + options.length;
  return out;
}

function flat(values: Values): Float64Array {
  return Float64Array.from(values.flat(2));
}

function flatPairs({ pairs_kg2, variance_kg2 }: Rows, first: Int32Array): Float64Array {
  const [limits, options] = [variance_kg2.length, first.at(-1)!];
  const out = new Float64Array(pairs_kg2.length > 0 ? options * options * limits : 0);
  for (const [d, own] of pairs_kg2.entries())
    for (const [s, others] of own.entries())
      for (const [e, other] of others.entries())
        for (const [t, covariance] of other.entries())
          out.set(covariance, ((first[d]! + s) * options + first[e]! + t) * limits);
  return out;
}

/** What an option adds to each variance at the least, whatever the items before it are at. */
function atLeast({ variances_kg2, pairs_kg2 }: Rows): Values {
  if (pairs_kg2.length === 0) return variances_kg2;
  return variances_kg2.map((options, d) =>
    options.map((own, s) =>
      own.map((value, k) =>
        pairs_kg2[d]![s]!.reduce((sum, other) => sum + Math.min(...other.map((two) => two[k]!)), value),
      ),
    ),
  );
}

function widthOf(moves: Rows["moves"]): number {
  return moves.reduce((sum, options) => sum + Math.max(...options), 1);
}

/** By row, depth and moves left: the least that the items from that depth on can add, from the last item on. */
function leastSums(values: Values, moves: Rows["moves"], count: number): Float64Array {
  const [depths, width] = [values.length + 1, widthOf(moves)];
  const out = new Float64Array(count * depths * width);
  for (let q = 0; q < count; q++)
    for (let d = values.length - 1; d >= 0; d--) {
      const [here, after] = [(q * depths + d) * width, (q * depths + d + 1) * width];
      for (let left = 0; left < width; left++) {
        let least = Infinity;
        for (const [s, option] of values[d]!.entries()) {
          const rest = left - moves[d]![s]!;
          if (rest >= 0) least = Math.min(least, option[q]! + out[after + rest]!);
        }
        out[here + left] = least;
      }
    }
  return out;
}
