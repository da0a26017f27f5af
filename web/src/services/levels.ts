/** What a tank's picture needs beside its level: where the reserve stands in it, and how well a reading tells. */
import type { Book, Row } from "../domain/book";
import { DIP_U, reserveFloors, usualReserve } from "../domain/fuel";
import { tanksOf } from "../domain/log_rows";
import type { State } from "../domain/state";
import { uncountedWater } from "../domain/water";

/** Litres of the reserve in each tank that fuel or water is drawn from, by its id. */
export function floorsIn(book: Book, { trailers_on = [] }: State): Readonly<Record<string, number>> {
  const { fuel_reserve_l, water_reserve_l } = book.vehicle?.body ?? {};
  const fuel = tanksOf({ book, holds: "fuel" });
  const water = tanksOf({ book, holds: "water", trailers_on });
  return {
    ...reserveFloors({ tanks: fuel, reserve_l: fuel_reserve_l ?? usualReserve({ tanks: fuel }) }),
    ...reserveFloors({ tanks: water, reserve_l: water_reserve_l ?? uncountedWater({ tanks: water }) }),
  };
}

/** u of a level read, as a share of the capacity; a tank's gauge may have its own. */
export function readingU(tank: Row["body"], how: string): number {
  return (how === "gauge" ? tank.gauge_u : null) ?? DIP_U[how]!;
}
