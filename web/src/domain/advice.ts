/**
 * Load advice: the smallest set of moves that brings every limit under. Each item is at one of its options: where it
 * is now, another place, or off. Loads are linear in the options chosen, variances too but for the errors that they
 * share: one unknown mass of several copies, or what weighings have tied together. A lower limit is the same with its
 * row negated.
 */
import { type Found, type Rows, Search, TOLERANCE_KG } from "./advice_search";
import { checkFinite, checkRange, DomainError, Duplicate, NotKnown, Unknown } from "./errors";
import { CONFIDENCE } from "./limits";
import { zAt } from "./normal";

/** A bound on one load; `fixed_kg` is what no item brings, at its worst tank state, `least` a lower bound. */
export interface Limit {
  readonly id: string;
  readonly limit_kg: number;
  readonly fixed_kg: number;
  readonly variance_kg2?: number;
  readonly least?: boolean;
  /** The covariance of the fixed load with each shared error. */
  readonly linked?: readonly number[];
}

/** What one unit of a shared error, named by its place in the covariance, adds to each limit's load. */
export interface Share {
  readonly error: number;
  readonly per_unit: readonly number[];
}

/** A place that an item may have: its load on each limit and the variance that is its own. */
export interface Option {
  readonly id: string;
  readonly loads_kg: readonly number[];
  readonly variances_kg2: readonly number[];
  /** What leaves the vehicle. */
  readonly off_kg?: number;
  readonly slot?: string | null;
  /** What comes into the slot. */
  readonly slot_kg?: number;
  /** What it counts as, but for an item's first option; 1 unless said. */
  readonly moves?: number;
  readonly shares?: readonly Share[];
}

/** Something that may be moved; the first option is where it is now. */
export interface Item {
  readonly id: string;
  readonly mass_kg: number;
  readonly options: readonly Option[];
}

/** Room for so many kilograms more. */
export interface Slot {
  readonly id: string;
  readonly capacity_kg: number;
}

/** A limit's load, kg, with its u. */
export interface Held {
  readonly id: string;
  readonly value_kg: number;
  readonly u_kg: number;
}

/** A limit that no choice meets; `short_kg` is missing at the very least. */
export interface Unmet {
  readonly id: string;
  readonly short_kg: number;
}

/**
 * `word`: within (nothing need move), found, impossible, or not_found among at most `most_moves` moves. `unmet` are the
 * limits that cannot be met by moving these, none where they only cannot be met together; `equals`: another choice is
 * as good; `exact`: the best of all choices, else only among those with at most `most_moves` moves.
 */
export interface Advice {
  readonly word: "within" | "found" | "impossible" | "not_found";
  readonly picks: readonly number[];
  readonly moves: number;
  readonly off_kg: number;
  readonly before: readonly Held[];
  readonly after: readonly Held[];
  readonly unmet: readonly Unmet[];
  readonly equals: boolean;
  readonly exact: boolean;
  readonly most_moves: number;
}

/** Fewest moves, ties by least mass off; or least mass off, ties by fewest moves. */
export type Objective = "moves" | "off";

export interface Problem {
  readonly limits: readonly Limit[];
  readonly items: readonly Item[];
  readonly slots?: readonly Slot[];
  /** Covariance of the shared errors. */
  readonly errors?: readonly (readonly number[])[];
  readonly confidence?: number;
  readonly objective?: Objective;
  readonly most_nodes?: number;
}

type Sound = Required<Pick<Problem, "limits" | "items" | "slots" | "errors">>;

const OBJECTIVES = ["moves", "off"];
/** Above so many movable items, copies of one thing being one, the number of moves is limited, 1, 2, 3 ... */
export const ALL_ITEMS = 18;
/** Places looked at beyond the present one, all searches together, before the answer says how far it is proven. */
export const MOST_NODES = 1_000_000;

/** Hears, before each round, how many moves it allows. */
export type Told = (most_moves: number) => void;

/** The least change, by branch and bound: heaviest item first, its present place first. Limits hold to 1e-9 kg. */
export function advise(problem: Problem, told: Told = () => {}): Advice {
  const { limits, items, slots = [], errors = [], most_nodes = MOST_NODES } = problem;
  const { confidence = CONFIDENCE, objective = "moves" } = problem;
  const z = zAt(confidence);
  if (!OBJECTIVES.includes(objective)) throw new Unknown("objective", objective, OBJECTIVES);
  checkRange("most_nodes", most_nodes, { low: 1 });
  const given = { limits, items, slots, errors };
  checkLimits(given);
  checkItems(given);
  const before = heldBy({ ...given, picks: items.map(() => 0) });
  const order = items.map((_, i) => i).sort((i, j) => items[j]!.mass_kg - items[i]!.mass_kg || i - j);
  const sorted = { ...given, items: order.map((i) => items[i]!) };
  const search = new Search(rowsOf(sorted), z, most_nodes + items.length);
  const unmet = search
    .shortKg()
    .map((short_kg, k) => ({ id: limits[k]!.id, short_kg }))
    .filter((one) => one.short_kg > TOLERANCE_KG);
  const none = { picks: [], moves: 0, off_kg: 0, before, after: before, unmet, equals: false };
  const all = items.reduce(
    (sum, { options }) => sum + Math.max(0, ...options.slice(1).map((one) => one.moves ?? 1)),
    0,
  );
  if (unmet.length > 0) return { ...none, word: "impossible", exact: true, most_moves: all };
  const [found, most_moves] = bestOf(search, all, objective, told);
  const exact = most_moves >= all;
  if (found === null) return { ...none, word: exact ? "impossible" : "not_found", exact, most_moves };
  const picks = items.map((_, i) => found.picks[order.indexOf(i)]!);
  const { moves, off_kg, equals } = found;
  const after = heldBy({ ...given, picks });
  const word = moves > 0 ? "found" : "within";
  return { word, picks, moves, off_kg, before, after, unmet, equals, exact, most_moves };
}

export interface HeldBy extends Pick<Problem, "limits" | "items" | "errors"> {
  readonly picks: readonly number[];
}

/** Each limit's load with the options picked, and its u by the exact variance, shared errors and all. */
export function heldBy({ limits, items, errors = [], picks }: HeldBy): Held[] {
  const chosen = items.map((item, i) => item.options[picks[i]!]!);
  return limits.map(({ id, fixed_kg, variance_kg2 = 0, linked = [] }, k) => {
    let [value_kg, variance] = [fixed_kg, variance_kg2];
    const put = new Float64Array(errors.length);
    for (const { loads_kg, variances_kg2, shares = [] } of chosen) {
      value_kg += loads_kg[k]!;
      variance += variances_kg2[k]!;
      for (const { error, per_unit } of shares) put[error] = put[error]! + per_unit[k]!;
    }
    for (let a = 0; a < put.length; a++) {
      const spread = put.reduce((sum, other, b) => sum + errors[a]![b]! * other, 0);
      variance += put[a]! * (2 * (linked[a] ?? 0) + spread);
    }
    return { id, value_kg, u_kg: Math.sqrt(Math.max(variance, 0)) };
  });
}

/** The best choice, and among at most how many moves it is proven to be (all of them: `count` or more). */
function bestOf(search: Search, count: number, objective: Objective, told: Told): [Found | null, number] {
  let [first, proven]: [Found | null, number] = [null, -1];
  while (first === null && proven < count && !search.spent) {
    told(proven + 1);
    first = search.leastOff({ most_moves: proven + 1 });
    if (!search.spent) proven++;
  }
  if (search.spent || first === null) return [first, Math.max(proven, 0)];
  if (objective === "moves" || first.off_kg <= TOLERANCE_KG) return [first, count];
  return lessOff(search, count, first, told);
}

/** Less off at the price of more moves: all at once where the items are few, else move by move. */
function lessOff(search: Search, count: number, first: Found, told: Told): [Found, number] {
  if (search.count <= ALL_ITEMS) {
    told(count);
    const better = search.leastOff({ most_moves: count, below_kg: first.off_kg });
    if (!search.spent) return better === null ? [first, count] : fewest(search, count, first, better);
    search.renew();
  }
  let [best, most] = [first, first.moves];
  while (most < count && best.off_kg > TOLERANCE_KG) {
    told(most + 1);
    const better = search.leastOff({ most_moves: most + 1, below_kg: best.off_kg });
    if (search.spent) return [best, most];
    best = better ?? best;
    most++;
  }
  return [best, count];
}

/** With as little off as `better`, the fewest moves; where nodes run out, that no fewer do is proven only so far. */
function fewest(search: Search, count: number, first: Found, better: Found): [Found, number] {
  for (let most_moves = first.moves; most_moves <= better.moves; most_moves++) {
    const found = search.leastOff({ most_moves, at_most_kg: better.off_kg });
    if (found !== null) return [found, count];
    if (search.spent) return [better, Math.max(first.moves, most_moves - 1)];
  }
  return [better, count];
}

/** Every limit as an upper bound; then the slots, then what comes off, which have no variance. */
function rowsOf({ limits, items, slots, errors }: Sound): Rows {
  const signs = limits.map((one) => (one.least ? -1 : 1));
  const options = items.map((item) => item.options);
  return {
    bounds_kg: [...limits.map((one, k) => signs[k]! * one.limit_kg), ...slots.map((one) => one.capacity_kg)],
    fixed_kg: [...limits.map((one, k) => signs[k]! * one.fixed_kg), ...slots.map(() => 0), 0],
    variance_kg2: limits.map((one) => one.variance_kg2 ?? 0),
    loads_kg: options.map((own) =>
      own.map(({ loads_kg, slot, slot_kg = 0, off_kg = 0 }) => [
        ...loads_kg.map((load, k) => signs[k]! * load),
        ...slots.map((one) => (one.id === slot ? slot_kg : 0)),
        off_kg,
      ]),
    ),
    variances_kg2: options.map((own) =>
      own.map((option) =>
        limits.map(({ linked }, k) => {
          const ties = (option.shares ?? []).map((one) => 2 * (linked?.[one.error] ?? 0) * one.per_unit[k]!);
          const tied = ties.reduce((sum, one) => sum + one, 0);
          return option.variances_kg2[k]! + tied + shared(option, option, errors, k);
        }),
      ),
    ),
    pairs_kg2:
      errors.length === 0
        ? []
        : options.map((own, d) =>
            own.map((one) =>
              options
                .slice(0, d)
                .map((others) => others.map((two) => limits.map((_, k) => 2 * shared(one, two, errors, k)))),
            ),
          ),
    moves: options.map((own) => own.map((one, s) => (s === 0 ? 0 : (one.moves ?? 1)))),
  };
}

/** Covariance of two options' loads through the errors that they share. */
function shared(one: Option, other: Option, errors: Sound["errors"], k: number): number {
  let sum = 0;
  for (const a of one.shares ?? [])
    for (const b of other.shares ?? []) sum += a.per_unit[k]! * errors[a.error]![b.error]! * b.per_unit[k]!;
  return sum;
}

function checkLimits({ limits, slots, errors }: Sound): void {
  once("limit", limits);
  once("slot", slots);
  for (const { limit_kg, fixed_kg, variance_kg2 = 0, least, linked = [] } of limits) {
    checkRange("limit_kg", limit_kg, { low: 0, above: least ? null : 0, unit: "kg" });
    checkFinite("fixed_kg", fixed_kg);
    checkRange("variance_kg2", variance_kg2, { low: 0, unit: "kg^2" });
    if (linked.length > 0) numbers("linked", linked, errors.length);
  }
  for (const { capacity_kg } of slots) checkRange("capacity_kg", capacity_kg, { above: 0, unit: "kg" });
  for (const [i, row] of errors.entries()) {
    numbers("errors", row, errors.length);
    checkRange("errors", row[i], { low: 0 });
  }
}

function checkItems({ limits, items, slots, errors }: Sound): void {
  once("item", items);
  const known = slots.map((slot) => slot.id);
  for (const { id, mass_kg, options } of items) {
    checkRange("mass_kg", mass_kg, { low: 0, unit: "kg" });
    if (options.length === 0) throw new NotKnown("options", `the item ${id}`);
    once("option", options);
    checkRange("off_kg", options[0]!.off_kg ?? 0, { low: 0, high: 0, unit: "kg" });
    for (const { loads_kg, variances_kg2, off_kg = 0, moves = 1, ...rest } of options) {
      const { slot = null, slot_kg = 0, shares = [] } = rest;
      numbers("loads_kg", loads_kg, limits.length);
      numbers("variances_kg2", variances_kg2, limits.length, 0);
      checkRange("off_kg", off_kg, { low: 0, unit: "kg" });
      checkRange("moves", moves, { low: 1 });
      checkRange("slot_kg", slot_kg, { low: 0, unit: "kg" });
      if (slot !== null && !known.includes(slot)) throw new Unknown("slot", slot, known);
      for (const { error, per_unit } of shares) {
        numbers("per_unit", per_unit, limits.length);
        checkFinite("error", error);
        if (!(error in errors)) throw new Unknown("error", error, [...errors.keys()]);
      }
    }
  }
}

function once(field: string, rows: readonly { readonly id: string }[]): void {
  const ids = new Set<string>();
  for (const { id } of rows) {
    if (ids.has(id)) throw new Duplicate(field, id);
    ids.add(id);
  }
}

function numbers(field: string, values: readonly number[], count: number, low: number | null = null): void {
  if (values.length !== count) throw new DomainError(field, values.length, `${count} numbers`);
  for (const value of values) checkRange(field, value, { low });
}
