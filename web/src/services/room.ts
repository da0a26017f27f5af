/** How much may still be added, where, and what a typed mass would do there. */
import type { Book } from "../domain/book";
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
import { learntOf } from "./answers";

/** Where something is put: x counts from the front axle, on the trailer from the coupling. */
export type Where = "vehicle" | "roof" | "trailer";

/** The limits of a state, ready for any place. */
export interface Held extends RoomLeft {
  readonly confidence: number;
  /** Limits that are not held even now, with how far their load is over and z u. */
  readonly already: readonly (Which & { readonly over_kg: number; readonly reach_kg: number })[];
  readonly bounds: Readonly<Record<Where, readonly Bound[]>>;
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

export type { Asked, Bound, Room };
