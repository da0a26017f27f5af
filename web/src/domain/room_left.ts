/** From the book to the room left: every limit of a state with its load before anything is added. */
import { coefficient, type Geometry, ROWS, TRAILER_ROWS } from "./axles";
import type { Book } from "./book";
import { MOST_VERTICES } from "./envelope";
import { type Learning, learn, loadsOf, weighedDays } from "./learning";
import { CONFIDENCE } from "./limits";
import { zAt } from "./normal";
import { geometryOf, type Missing, type Plan, planIn, reckoned } from "./plan";
import { ratingsOf } from "./plates";
import type { Bound } from "./room";
import type { State, TankLevel } from "./state";
import { design, type Part } from "./statics";

/** The limits of one state, at their loads there; `weighed` says whether a weighing had a part in them. */
export interface RoomLeft {
  readonly geometry: Geometry;
  readonly limits: readonly Bound[];
  /** Blanks of the plan that could not be counted. */
  readonly missing: readonly Missing[];
  readonly weighed: boolean;
}

export interface RoomIn {
  readonly book: Book;
  readonly state: State;
  readonly day: string;
  readonly confidence?: number;
  readonly any_level?: boolean;
  readonly learning?: Learning | null;
}

/** Every limit of a state with the load that the reconciled plan gives it, or at its worst levels of the tanks. */
export function roomLeft({
  book,
  state,
  day,
  confidence = CONFIDENCE,
  any_level = false,
  learning = null,
}: RoomIn): RoomLeft | null {
  if (!reckoned({ book, state })) return null;
  const known = learning ?? learn({ book, days: weighedDays({ book }) });
  const geometry = geometryOf({ book, state });
  const bare = limitsIn(book, geometry, day);
  const told = { geometry, weighed: known.posterior.reading_ids.length > 0 };
  if (!any_level) {
    const plan = planIn({ book, state });
    return { ...told, limits: loaded(bare, known, plan, geometry), missing: plan.missing };
  }
  const tanks = book.tanks.map(
    ({ id }): TankLevel => ({ tank_id: id, level: 1, level_u: 0, known_from: "typed" }),
  );
  const plan = planIn({ book, state: { ...state, tanks } });
  const held = plan.passing.filter((part) => part.id.endsWith(":content"));
  const dry = { ...plan, passing: plan.passing.filter((part) => !held.includes(part)) };
  const limits = worst(loaded(bare, known, dry, geometry), held, geometry, zAt(confidence));
  return { ...told, limits, missing: plan.missing };
}

export interface BoundsOn {
  readonly room: RoomLeft;
  readonly on?: string;
  readonly roof?: boolean;
}

/** The limits with what a kilogram adds to them: on the vehicle, on its roof, or on the trailer that is on. */
export function boundsOn({ room: { geometry, limits }, on = "vehicle", roof = false }: BoundsOn): Bound[] {
  return limits.map((one) => {
    const { share, per_m } = coefficient({ row: one.rating, geometry, x_m: 0, on, roof });
    return { ...one, share, per_m };
  });
}

/** All limits in the order of the ratings, with nothing loaded yet. */
function limitsIn(book: Book, geometry: Geometry, day: string): Bound[] {
  const trailer_id = geometry.trailer?.id ?? null;
  const rows = [...ROWS, ...(trailer_id === null ? [] : TRAILER_ROWS), "roof"];
  const nothing = { mean_kg: 0, u_kg: 0 };
  const upper = ratingsOf({ book, day, trailer_id })
    .filter(({ rating }) => rows.includes(rating))
    .map(({ rating, limit_kg }): Bound => ({ rating, side: "upper", limit_kg, ...nothing }));
  const lower = ["front", "coupling"].filter((row) => rows.includes(row));
  return [...upper, ...lower.map((rating): Bound => ({ rating, side: "lower", limit_kg: 0, ...nothing }))];
}

function loaded(limits: readonly Bound[], known: Learning, plan: Plan, geometry: Geometry): Bound[] {
  const rows = limits.map((one) => one.rating);
  const { mean_kg, cov_kg2 } = loadsOf(known, plan, rows, geometry);
  return limits.map((one, k) => ({
    ...one,
    mean_kg: mean_kg[k]!,
    u_kg: Math.sqrt(Math.max(cov_kg2[k]![k]!, 0)),
  }));
}

/** A content's load on one limit, kg, and its variance, kg^2. */
type Content = readonly [kg: number, kg2: number];

/** Each limit with the contents, empty or full, that leave it the least headroom. */
function worst(dry: readonly Bound[], held: readonly Part[], geometry: Geometry, z: number): Bound[] {
  const { shares, per_m } = design({ parts: held, geometry, rows: dry.map((one) => one.rating) });
  return dry.map((one, k) => {
    const contents = held.map(({ mass_kg, mass_u_kg, x_u_m = 0 }, j): Content => {
      const [share, slope] = [shares[k]![j]!, per_m[k]![j]!];
      const moved = slope ** 2 * (mass_kg ** 2 + mass_u_kg ** 2) * x_u_m ** 2;
      return [share * mass_kg, (share * mass_u_kg) ** 2 + moved];
    });
    return filled(one, contents, z);
  });
}

function filled(bound: Bound, contents: readonly Content[], z: number): Bound {
  const sign = bound.side === "upper" ? 1 : -1;
  const relieving = contents.filter(([kg]) => sign * kg < 0);
  const start = contents
    .filter(([kg]) => sign * kg >= 0)
    .reduce<Content>(add, [bound.mean_kg, bound.u_kg ** 2]);
  const told = ([mean_kg, kg2]: Content) => ({ ...bound, mean_kg, u_kg: Math.sqrt(kg2) });
  if (relieving.length > MOST_VERTICES)
    return told([start[0], relieving.reduce((sum, [, kg2]) => sum + kg2, start[1])]);
  let states: Content[] = [start];
  for (const one of relieving) states = states.flatMap((state) => [state, add(state, one)]);
  const height = ([kg, kg2]: Content) => sign * kg + z * Math.sqrt(kg2);
  return told(states.reduce((best, one) => (height(one) > height(best) ? one : best)));
}

function add([kg, kg2]: Content, [more, more2]: Content): Content {
  return [kg + more, kg2 + more2];
}
