/** A route on the device: what was reported of its supplies, and how far along it the vehicle is. */
import type { Body, Book, Row } from "../domain/book";
import { DAY_KM } from "../domain/itinerary";
import { asReported, OPEN, placeName, type Report, type Reported, reportsOf } from "../domain/reports";
import { placedKm } from "../domain/underway";

export type { Body, Report, Reported };

/** A route's record as its supplies were last reported by anybody. */
export function reportedRoute(book: Book, route: Body, at: string): Body {
  return asReported({ book, route, at });
}

/** The latest that was said of a place. */
export function reportOf(book: Book, name: string, at: string): Reported | null {
  const known = placeName({ name });
  return reportsOf({ book, at }).find((one) => one.name === known) ?? null;
}

/** Reports of something shut at places that no route names, perhaps since renamed. */
export function strayReports(book: Book, at: string): Row[] {
  const named = new Set(
    book.routes.flatMap(({ body }) => (body.supplies ?? []).map(({ name }: Body) => placeName({ name }))),
  );
  const stray = reportsOf({ book, at }).filter((one) => !named.has(one.name));
  const ids = stray
    .flatMap(({ fuel, water }) => [fuel, water])
    .flatMap((one) => (one && one.found !== OPEN ? one.entry_id : []));
  return book.events.filter(({ id }) => ids.includes(id));
}

/** An entry of the log by which somebody says what was found at a place; it leaves the rates of fuel as they are. */
export function reportBody(supply: string, found: string, note = ""): Body {
  return { what: "supply", rate_u: 0, supply, found, ...(note.trim() ? { note: note.trim() } : {}) };
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
