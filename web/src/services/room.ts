/** How much may still be added, where, and what a typed mass would do there. */
import type { Book } from "../domain/book";
import { type FillRoom, fillRoom } from "../domain/fill_room";
import { type Learning, learn } from "../domain/learning";
import { CONFIDENCE } from "../domain/limits";
import { DESCRIBED_U_M, MASS_SHARE, MEASURED_U_M } from "../domain/parts";
import {
  type Asked,
  ask,
  type Bound,
  headroomKg,
  type Room,
  roomAt,
  type Stretch,
  stretches,
  type Which,
} from "../domain/room";
import { boundsOn, type RoomLeft, roomLeft } from "../domain/room_left";
import type { State } from "../domain/state";
import { daysOf } from "./answers";

/** Where something is put: x counts from the front axle, on the trailer from the coupling. */
export type Where = "vehicle" | "roof" | "trailer";

/** The limits of a state, ready for any place. */
export interface Held extends RoomLeft {
  readonly confidence: number;
  /** Limits that are not held even now, with how far their load is over and z u. */
  readonly already: readonly (Which & { readonly over_kg: number; readonly reach_kg: number })[];
  readonly bounds: Readonly<Record<Where, readonly Bound[]>>;
}

/** What all weighings teach, once for as long as the book is the same. */
const LEARNT = new WeakMap<Book, Learning>();

export function learntOf(book: Book): Learning {
  const found = LEARNT.get(book) ?? learn({ book, days: daysOf(book) });
  LEARNT.set(book, found);
  return found;
}

/** The limits of a state; null where the plan does not reach it. `any_level` takes the tanks at their worst. */
export function heldIn(book: Book, state: State, day: string, any_level: boolean): Held | null {
  const confidence: number = book.vehicle?.body.confidence ?? CONFIDENCE;
  const planned = book.vehicle?.body.wheelbase_m != null;
  const learning = planned ? learntOf(book) : null;
  const room = roomLeft({ book, state, day, confidence, any_level, learning });
  if (!room) return null;
  const on = room.geometry.trailer?.id;
  const bounds = {
    vehicle: boundsOn({ room }),
    roof: boundsOn({ room, roof: true }),
    trailer: on === undefined ? [] : boundsOn({ room, on }),
  };
  return { ...room, confidence, already: alreadyOf(room, confidence), bounds };
}

/** A fill that is asked about: into which tank, and what goes into the others at the same stop. */
export interface Filling {
  readonly tank_id: string;
  readonly litres_l: Readonly<Record<string, number>>;
}

/** Litres that may go into a tank until the first rating goes over; null where the plan does not reach the state. */
export function fillIn(
  book: Book,
  state: State,
  day: string,
  { tank_id, litres_l }: Filling,
): FillRoom | null {
  if (book.vehicle?.body.wheelbase_m == null) return null;
  const confidence: number = book.vehicle.body.confidence ?? CONFIDENCE;
  const tanks = state.tanks.map((one) => {
    const litres = one.tank_id === tank_id ? 0 : (litres_l[one.tank_id] ?? 0);
    const capacity: number = book.tanks.find(({ id }) => id === one.tank_id)?.body.capacity_l ?? Infinity;
    return { ...one, level: Math.min(one.level + litres / capacity, 1) };
  });
  const asked = { tank_id, litres_l: litres_l[tank_id] ?? 0, confidence, learning: learntOf(book) };
  return fillRoom({ book, state: { ...state, tanks }, day, ...asked });
}

function alreadyOf({ limits }: RoomLeft, confidence: number): Held["already"] {
  return limits.flatMap((bound) => {
    const { rating, side, limit_kg, mean_kg } = bound;
    const spare = headroomKg({ bound, confidence });
    if (spare === null || limit_kg === null || spare >= 0) return [];
    const over_kg = side === "upper" ? mean_kg - limit_kg : limit_kg - mean_kg;
    return [{ rating, side, over_kg, reach_kg: -spare - over_kg }];
  });
}

/** One stretch of the curve, with points close enough to draw it by. */
export interface Piece extends Stretch {
  readonly points: readonly { readonly x_m: number; readonly kg: number | null }[];
}

const POINTS = 24;

/** The room along a stretch of the vehicle or of the trailer. */
export function curveOf(
  { bounds, confidence }: Held,
  where: Where,
  ends: readonly [from_m: number, to_m: number],
): Piece[] {
  const [from_m, to_m] = ends;
  return stretches({ bounds: bounds[where], from_m, to_m, confidence }).map((one) => {
    const points = Array.from({ length: POINTS + 1 }, (_, k) => {
      const x_m = one.from_m + ((one.to_m - one.from_m) * k) / POINTS;
      const per_kg = one.share + one.per_m * x_m;
      const kg = one.binds === null ? null : one.spare_kg === 0 ? 0 : one.spare_kg / per_kg;
      return { x_m, kg: kg !== null && kg >= 0 && Number.isFinite(kg) ? kg : null };
    });
    return { ...one, points };
  });
}

/** The room for an exact mass at one place. */
export function roomThere({ bounds, confidence }: Held, where: Where, x_m: number): Room {
  return roomAt({ bounds: bounds[where], x_m, confidence });
}

/** A mass to be put somewhere: how it is known, and whether its place was measured or only told. */
export interface Load {
  readonly mass_kg: number;
  readonly known_by: string;
  readonly measured: boolean;
}

/** Every limit after a mass is put somewhere. */
export function askThere({ bounds, confidence }: Held, where: Where, x_m: number, load: Load): Asked {
  const { mass_kg, known_by, measured } = load;
  const mass_u_kg = MASS_SHARE[known_by]! * mass_kg;
  const x_u_m = measured ? MEASURED_U_M : DESCRIBED_U_M;
  return ask({ bounds: bounds[where], x_m, mass_kg, mass_u_kg, x_u_m, confidence });
}

export type { Asked, Bound, FillRoom, Room };
