/**
 * The least change of a book in a state: what to move, leave or let out so that every rating is under. Masses are
 * those that plan and weighings together say, with their whole covariance.
 */
import {
  type Advice,
  advise,
  type Held,
  type Item,
  type Limit,
  type Objective,
  type Option,
  type Slot,
} from "./advice";
import type { Geometry } from "./axles";
import type { Book, Row } from "./book";
import {
  type Choice,
  contentL,
  itemSubjects,
  type Refused,
  roomL,
  type Subject,
  tankSubjects,
  type Unrated,
  usualWaterReserve,
  withoutRefused,
} from "./change_options";
import { type Liquid, type Sum, Sums } from "./change_sums";
import { checkRange, Unknown } from "./errors";
import { usualReserve } from "./fuel";
import type { Learning } from "./learning";
import { CONFIDENCE, type Verdict, verdict } from "./limits";
import { zAt } from "./normal";
import { fuelOf } from "./parts";
import { geometryOf, type Missing, type Plan, planIn } from "./plan";
import { ratingsOf } from "./plates";
import type { State, TankLevel } from "./state";
import type { Part } from "./statics";
import { ratedRows } from "./worst";

const [LEAST, SHARE, CONTENT] = [":least", ":share", ":content"];
const TANKS = ["as_is", "worst"];

/**
 * What the owner wants of the answer. `tanks` takes the levels as they are, and then liquids may be let out, of the
 * kinds in `let_out`, or poured over; or it takes each limit at the levels that are worst for it. Blank reserves are the
 * usual ones: water 6 L a day and adult for 4 days, fuel 8 L or 10 %.
 */
export interface Wishes {
  readonly tanks?: "as_is" | "worst";
  readonly objective?: Objective;
  readonly confidence?: number | null;
  readonly refused?: readonly Refused[];
  readonly let_out?: readonly string[];
  readonly water_reserve_l?: number | null;
  readonly fuel_reserve_l?: number | null;
  readonly least_coupling_kg?: number;
  readonly least_coupling_share?: number | null;
}

/** What the solver is asked; see `advise`. */
export interface Asked {
  readonly limits: readonly Limit[];
  readonly items: readonly Item[];
  readonly slots: readonly Slot[];
  readonly errors: readonly (readonly number[])[];
  readonly confidence: number;
  readonly objective: Objective;
}

/** The problem of a book, with what its items and options stand for: `subjects` in the order of the items. */
export interface Posed {
  readonly problem: Asked;
  readonly subjects: readonly Subject[];
  readonly unrated: readonly Unrated[];
  readonly missing: readonly Missing[];
}

/** What a move does to the load of a rating, kg. */
export interface Effect {
  readonly rating: string;
  readonly kg: number;
}

/** One thing to do, with what leaves the vehicle and what it does to each rating. */
export interface Move {
  readonly subject_id: string;
  readonly kind: "item" | "tank";
  readonly choice: Choice;
  readonly off_kg: number;
  readonly effects: readonly Effect[];
}

/** What must not be less: the load of the front axle and of the coupling, kg, and what is kept of a liquid, L. */
export interface Floor {
  readonly id: string;
  readonly least: number;
  readonly before: Held;
  readonly after: Held;
  readonly met_before: boolean;
  readonly met_after: boolean;
}

/** The moves with every rating before and after them; `advice` says how good and how sure the answer is. */
export interface LeastChange {
  readonly advice: Advice;
  readonly moves: readonly Move[];
  readonly before: readonly Verdict[];
  readonly after: readonly Verdict[];
  readonly floors: readonly Floor[];
}

export interface ChangeOf {
  readonly book: Book;
  readonly state: State;
  readonly learning: Learning;
  readonly day: string;
  /** The weighing whose very state this is. */
  readonly session?: string | null;
  readonly wishes?: Wishes | null;
}

/** The least change that brings every known rating of a state under: `poseChange`, `advise`, `readChange`. */
export function leastChange(given: ChangeOf): LeastChange {
  const posed = poseChange(given);
  return readChange({ posed, advice: advise(posed.problem) });
}

/** The book's problem for `advise`: ratings in force, what must not lift, reserves; masses of plan and weighings. */
export function poseChange({ book, state, learning, day, session = null, wishes }: ChangeOf): Posed {
  const wish = wishes ?? {};
  const { tanks = "as_is", objective = "moves", let_out = ["water"], refused = [] } = wish;
  if (!TANKS.includes(tanks)) throw new Unknown("tanks", tanks, TANKS);
  const confidence: number = wish.confidence || book.vehicle?.body.confidence || CONFIDENCE;
  const plan = planIn({ book, state });
  const geometry = geometryOf({ book, state });
  const trailer_id = geometry.trailer?.id ?? null;
  const known = new Map<string, number>();
  for (const { rating, limit_kg } of ratingsOf({ book, day, trailer_id }))
    if (limit_kg !== null) known.set(rating, limit_kg);
  const [items, unrated] = itemSubjects({ book, state, plan, rated: [...known.keys()] });
  const liquids = tanks === "as_is" ? tankSubjects({ book, state, let_out }) : [];
  const subjects = withoutRefused({ subjects: [...items, ...liquids], refused });
  const rows = ratedRows({ plan, geometry });
  if (!rows.includes("roof") && subjects.some((one) => one.choices.some((way) => way.part?.roof)))
    rows.push("roof");
  const asked = rows.flatMap((id): Sum[] =>
    known.has(id) ? [{ id, of: { [id]: 1 }, limit_kg: known.get(id)! }] : [],
  );
  const sums = new Sums({
    posterior: learning.posterior,
    geometry,
    sums: [...asked, ...floorsOf(geometry, wish)],
  });
  const worst = tanks === "worst" ? zAt(confidence) : null;
  const here = { book, state, plan, subjects, session };
  fixAll(sums, here, learning, geometry, worst);
  const made = itemsOf(sums, here);
  const [limits, errors] = sums.finish();
  const stores = storesOf(here, wish);
  const problem = {
    limits: [...limits, ...stores.map(([limit]) => limit)],
    items: made.map((item, i) => counted(item, subjects[i]!, stores)),
    slots: roomsOf(here),
    errors,
    confidence,
    objective,
  };
  return { problem, subjects, unrated, missing: plan.missing };
}

export interface ReadChange {
  readonly posed: Posed;
  readonly advice: Advice;
}

/** The solver's answer as moves and verdicts. With no answer there are no moves, and after is as before. */
export function readChange({ posed, advice }: ReadChange): LeastChange {
  const { limits, items, confidence } = posed.problem;
  const upper = limits.flatMap((one, k) => (one.least ? [] : [k]));
  const moves = advice.picks.flatMap((pick, i): Move[] => {
    if (pick === 0) return [];
    const subject = posed.subjects[i]!;
    const [here, there] = [items[i]!.options[0]!, items[i]!.options[pick]!];
    const effects = upper.map((k) => ({
      rating: limits[k]!.id,
      kg: there.loads_kg[k]! - here.loads_kg[k]!,
    }));
    const { id: subject_id, kind } = subject;
    return [{ subject_id, kind, choice: subject.choices[pick - 1]!, off_kg: there.off_kg ?? 0, effects }];
  });
  const z = zAt(confidence);
  const isMet = ({ value_kg, u_kg }: Held, { limit_kg }: Limit) => value_kg - z * u_kg >= limit_kg - 1e-9;
  const judged = (held: readonly Held[]) =>
    upper.map((k) => {
      const { id, value_kg, u_kg } = held[k]!;
      return verdict({ rating: id, value_kg, u_kg, limit_kg: limits[k]!.limit_kg, confidence });
    });
  const floors = limits.flatMap((one, k): Floor[] => {
    if (!one.least) return [];
    const [before, after] = [advice.before[k]!, advice.after[k]!];
    const met = { met_before: isMet(before, one), met_after: isMet(after, one) };
    return [{ id: one.id, least: one.limit_kg, before, after, ...met }];
  });
  return { advice, moves, before: judged(advice.before), after: judged(advice.after), floors };
}

interface Here {
  readonly book: Book;
  readonly state: State;
  readonly plan: Plan;
  readonly subjects: readonly Subject[];
  readonly session: string | null;
}

function floorsOf(geometry: Geometry, { least_coupling_kg = 0, least_coupling_share }: Wishes): Sum[] {
  checkRange("least_coupling_kg", least_coupling_kg, { low: 0, unit: "kg" });
  const out: Sum[] = [{ id: `front${LEAST}`, of: { front: 1 }, limit_kg: 0, least: true }];
  if (geometry.trailer == null) return out;
  out.push({ id: `coupling${LEAST}`, of: { coupling: 1 }, limit_kg: least_coupling_kg, least: true });
  if (least_coupling_share == null) return out;
  const share = checkRange("least_coupling_share", least_coupling_share, { low: 0, high: 1 });
  const of = { coupling: 1, trailer: -share };
  return [...out, { id: `coupling${SHARE}`, of, limit_kg: 0, least: true }];
}

/** Everything that does not move, contents as they are or each at its worst end. */
function fixAll(
  sums: Sums,
  { book, state, plan, subjects, session }: Here,
  { unlisted }: Learning,
  geometry: Geometry,
  worst_z: number | null,
): void {
  const moving = new Set(subjects.filter((one) => one.kind === "item").map((one) => one.id));
  const towed = geometry.trailer?.id ?? null;
  const aboard = unlisted.filter((part) => (part.on ?? "vehicle") === "vehicle" || part.on === towed);
  for (const part of [...plan.lasting.filter((one) => !moving.has(one.id)), ...aboard]) sums.fix(part);
  const brim = book.tanks.map(
    ({ id }): TankLevel => ({ tank_id: id, level: 1, level_u: 0, known_from: "typed" }),
  );
  const { passing } = worst_z === null ? plan : planIn({ book, state: { ...state, tanks: brim } });
  for (const part of passing)
    if (worst_z !== null && part.id.endsWith(CONTENT!)) sums.fixWorst(part, worst_z);
    else sums.fix(part, session ?? "");
}

/** Each subject with its options, staying first. */
function itemsOf(sums: Sums, here: Here): Item[] {
  const parts = new Map([...here.plan.lasting, ...here.plan.passing].map((part) => [part.id, part]));
  const singly = new Set(here.book.items.filter(({ body }) => body.weighed_singly).map(({ id }) => id));
  const liquids = liquidsOf(sums, here);
  return here.subjects.map(({ id, kind, choices }): Item => {
    if (kind === "tank") {
      const ways = choices.map((way) => pour(sums, id, way, liquids));
      return { id, mass_kg: parts.get(id + CONTENT)!.mass_kg, options: [sums.nothing("stay"), ...ways] };
    }
    const part = parts.get(id)!;
    const ways = choices.map((way) => wayOf(sums, part, way, singly.has(id)));
    return { id, mass_kg: sums.massKg(part), options: [sums.option("stay", part), ...ways] };
  });
}

/** An item put elsewhere or left, whole or so many copies of it, whose masses apart are known by the plan alone. */
function wayOf(sums: Sums, here: Part, way: Choice, singly: boolean): Option {
  const [count, moves] = [here.copies ?? 1, way.copies ?? 1];
  if (moves < count) {
    const apart_kg2 = singly ? ((moves * (count - moves)) / count ** 2) * here.mass_u_kg ** 2 : 0;
    return sums.divided(way.id, here, way.part ?? null, moves, apart_kg2);
  }
  const whole = way.part ? sums.option(way.id, way.part) : sums.nothing(way.id, sums.massKg(here));
  return { ...whole, moves };
}

/** The tanks that something is poured from or into. */
function liquidsOf(
  sums: Sums,
  { book, state, plan, subjects, session }: Here,
): ReadonlyMap<string, Liquid & { readonly capacity_l: number }> {
  const tanks = subjects.filter((one) => one.kind === "tank");
  const into = new Set(tanks.flatMap((one) => one.choices.map((way) => way.to_tank_id)));
  const touched = book.tanks.filter((row) => into.has(row.id) || tanks.some((one) => one.id === row.id));
  const fuel = fuelOf(book.vehicle?.body, state);
  return new Map(
    touched.map((row) => {
      const held = plan.passing.find((part) => part.id === row.id + CONTENT)!;
      const level = state.tanks.find((tank) => tank.tank_id === row.id)?.level ?? 0;
      const known = sums.knows(`${session}:${held.id}`);
      const liquid = sums.liquid(row, fuel, held, level, known);
      return [row.id, { ...liquid, capacity_l: row.body.capacity_l as number }];
    }),
  );
}

function pour(
  sums: Sums,
  tank_id: string,
  { id, to_tank_id, litres_l = 0 }: Choice,
  liquids: ReturnType<typeof liquidsOf>,
): Option {
  const from = liquids.get(tank_id)!;
  const into = to_tank_id ? liquids.get(to_tank_id)! : null;
  const option = sums.poured(
    id,
    litres_l / from.capacity_l,
    from,
    into && [into, litres_l / into.capacity_l],
  );
  return to_tank_id ? { ...option, slot: to_tank_id, slot_kg: litres_l } : option;
}

/** The room in each tank that something may be poured into, in litres. */
function roomsOf({ book, state, subjects }: Here): Slot[] {
  const into = new Set(subjects.flatMap((one) => one.choices.map((way) => way.to_tank_id)));
  return book.tanks
    .filter((row) => into.has(row.id))
    .map((tank) => ({ id: tank.id, capacity_kg: roomL({ tank, state }) }));
}

type Store = readonly [limit: Limit, tanks: ReadonlySet<string>];

/** What is kept of water and of fuel, in litres, with the tanks that it is in; what is short already may stay so. */
function storesOf(here: Here, wish: Wishes): Store[] {
  const { book, state, subjects } = here;
  const poured = new Set(
    subjects.filter((one) => one.choices.some((way) => way.kind === "out")).map((one) => one.id),
  );
  return (["water", "fuel"] as const).flatMap((holds): Store[] => {
    const rows = book.tanks.filter((row) => row.body.holds === holds && counts(row, state));
    if (!rows.some((row) => poured.has(row.id))) return [];
    const reserve = wish[`${holds}_reserve_l`] ?? usual(holds, rows, here);
    checkRange(`${holds}_reserve_l`, reserve, { low: 0, unit: "L" });
    const held = rows.reduce((sum, tank) => sum + contentL({ tank, state }), 0);
    const limit = { id: holds + LEAST, limit_kg: Math.min(reserve, held), fixed_kg: held, least: true };
    return [[limit, new Set(rows.map((row) => row.id))]];
  });
}

function usual(holds: string, rows: readonly Row[], here: Here): number {
  if (holds === "water") return usualWaterReserve(here);
  const tanks = rows.map(({ id, body }) => ({
    id,
    capacity_l: body.capacity_l as number,
    drawn: !body.can,
  }));
  return usualReserve({ tanks });
}

/** A tank that is there, whose level is known, and that is no emergency reserve. */
function counts({ id, body }: Row, state: State): boolean {
  const level = state.tanks.find((tank) => tank.tank_id === id);
  const here = !body.trailer_id || state.trailers_on.includes(body.trailer_id);
  const stated = level !== undefined && level.known_from !== "prior" && body.capacity_l != null;
  return here && stated && !body.emergency_reserve;
}

/** An item that counts against the stores too: what is let out of a tank of theirs. */
function counted(item: Item, subject: Subject, stores: readonly Store[]): Item {
  if (stores.length === 0) return item;
  const none = stores.map(() => 0);
  const options = item.options.map((option, n) => {
    const way = n > 0 ? subject.choices[n - 1]! : null;
    const litres = way?.kind === "out" ? (way.litres_l ?? 0) : 0;
    return {
      ...option,
      loads_kg: [...option.loads_kg, ...stores.map(([, ids]) => (ids.has(subject.id) ? -litres : 0))],
      variances_kg2: [...option.variances_kg2, ...none],
      shares: (option.shares ?? []).map((one) => ({ ...one, per_unit: [...one.per_unit, ...none] })),
    };
  });
  return { ...item, options };
}
