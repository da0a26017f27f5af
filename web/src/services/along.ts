/** A whole route on the device: fuel, water and loads along it, and what of it cannot be answered. */
import type { Body, Book } from "../domain/book";
import { DomainError } from "../domain/errors";
import { type Along, type Road, road } from "../domain/road";
import { learntOf } from "./answers";
import { readLog } from "./consumption";
import { waterBefore } from "./water_read";

export type { RatingAlong, RoadLoads, Stuck } from "../domain/road_loads";
export type { Section } from "../domain/route";
export type { Along, Road };

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
    return {
      road: road({
        book,
        route,
        at,
        from_km,
        learning,
        previous: readLog(book),
        water_before: waterBefore(book),
      }),
      trouble: null,
    };
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    const { field, value, message } = error;
    return { road: null, trouble: { field, value, message } };
  }
}
