/** A route on the device: fuel, water and loads along it, and what stands in its way in words for the screen. */
import type { Body, Book } from "../domain/book";
import { DomainError } from "../domain/errors";
import { DAY_KM } from "../domain/itinerary";
import { type Along, placedKm, type Road, road } from "../domain/road";
import { learntOf } from "./room";

export type { RatingAlong, RoadLoads, Stuck } from "../domain/road_loads";
export type { Section } from "../domain/route";
export type { Along, Body, Road };

/** What cannot be answered: which figure of the route, and its value. */
export interface Trouble {
  readonly field: string;
  readonly value: unknown;
  readonly message: string;
}

export interface Answered {
  readonly road: Road | null;
  readonly trouble: Trouble | null;
}

/** A route answered now; `from_km` null is as far as the odometer tells. */
export function roadOf(book: Book, route: Body, at: string, from_km: number | null): Answered {
  const learning = book.vehicle?.body.wheelbase_m == null ? null : learntOf(book);
  try {
    return { road: road({ book, route, at, from_km, learning }), trouble: null };
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    const { field, value, message } = error;
    return { road: null, trouble: { field, value, message } };
  }
}

/** How far along it the odometer tells that the vehicle is. */
export function placed(book: Book, route: Body, at: string): number {
  return placedKm({ book, route, at });
}

/** Days from the beginning of a route to a place on it; those of a stay there are still to come. */
export function daysTo(route: Body, at_km: number): number {
  let [done_km, days] = [0, 0];
  for (const { distance_km, days: own } of route.legs as readonly Body[]) {
    const share =
      distance_km > 0 ? Math.min(Math.max((at_km - done_km) / distance_km, 0), 1) : at_km > done_km ? 1 : 0;
    days += share * (own ?? distance_km / (route.day_km || DAY_KM));
    done_km += distance_km;
  }
  return days;
}

export { DAY_KM };
