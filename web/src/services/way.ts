/** Where the vehicle is on which route, and what comes next there. */
import type { Body, Book, Row } from "../domain/book";
import { DomainError } from "../domain/errors";
import { WITH_TRAILER } from "../domain/fuel";
import { FACTOR } from "../domain/fullfull";
import type { Beside, Spot } from "../domain/geo";
import { trailersFor } from "../domain/itinerary";
import { HERE_KM, type NextSupply, suppliesAhead } from "../domain/next_supply";
import { alongRoute } from "../domain/whereabouts";
import { presentAt } from "./answers";
import { confidenceOf, readLog } from "./consumption";
import { daysTo, placed, reportedRoute } from "./road";
import { waterBefore } from "./water_read";

export type { Beside, NextSupply, Spot };

/** A place on a route that somebody named, and where the odometer stood then; from there the odometer goes on. */
export interface Anchor {
  readonly how: "place" | "position" | "typed";
  readonly at_km: number;
  readonly odometer_km: number | null;
  /** How far beside the way a position was. */
  readonly off_km?: number;
}

/** What this device was told: which route ("" for none), and where on it. */
export interface Told {
  readonly route: string | null;
  readonly anchor: Anchor | null;
}

/** The route that the vehicle is on: the one chosen if it is still there, else the last begun and not done, else one not begun yet. */
export function routeNow(book: Book, at: string, told: Told): Row | null {
  if (told.route === "") return null;
  const chosen = book.routes.find((one) => one.id === told.route);
  if (chosen) return chosen;
  const last = lastOdometer(book);
  const begun = book.routes.filter(({ body }) => body.begun_odometer_km != null && last !== null);
  const on = begun
    .filter(
      ({ body }) => body.begun_odometer_km <= last! && placed(book, body, at) < lengthOf(body) - HERE_KM,
    )
    .sort((a, b) => a.body.begun_odometer_km - b.body.begun_odometer_km);
  return on.at(-1) ?? book.routes.findLast(({ body }) => body.begun_odometer_km == null) ?? null;
}

/** How far along a route: by what this device was told and the odometer since, or by the odometer since it began. */
export function whereOn(book: Book, { id, body }: Row, at: string, { route, anchor }: Told): number {
  if (!anchor || (route !== null && route !== id)) return placed(book, body, at);
  const total = lengthOf(body);
  const here = Math.min(anchor.at_km, total);
  if (anchor.odometer_km === null) return here;
  const factor: number = book.vehicle?.body.odometer_factor || FACTOR;
  const since = ((lastOdometer(book) ?? anchor.odometer_km) - anchor.odometer_km) * factor;
  return Math.min(here + Math.max(since, 0), total);
}

/** About where along a route a position is; null where no supply's coordinates are known. */
export function nearOn(route: Body, spot: Spot): Beside | null {
  return alongRoute({ route, spot });
}

/** The highest odometer reading in the log, or null. */
export function lastOdometer({ fills, dips, transfers, events }: Book): number | null {
  const all = [...fills, ...dips, ...transfers, ...events].map((one) => one.body.odometer_km);
  const known = all.filter((one): one is number => typeof one === "number");
  return known.length > 0 ? Math.max(...known) : null;
}

export function lengthOf(route: Body): number {
  return (route.legs as readonly Body[]).reduce((sum, leg) => sum + leg.distance_km, 0);
}

/** The next certain supply of a route as it was reported, and the one after, as they stand for somebody here. */
export interface Ahead {
  readonly route: Body;
  readonly next: readonly NextSupply[];
  /** One-sided, of a supply that counts as reached. */
  readonly confidence: number;
  /** The trailers that are on by the log and stay behind on this way, and those that it puts on. */
  readonly left: readonly string[];
  readonly added: readonly string[];
}

export function aheadOn(
  book: Book,
  row: Row,
  at: string,
  holds: "fuel" | "water",
  from_km: number,
): Ahead | null {
  const route = reportedRoute(book, row.body, at);
  const confidence = confidenceOf(book);
  const log = holds === "fuel" ? readLog(book) : null;
  try {
    return {
      route,
      confidence,
      ...trailersOn(book, route, at),
      next: suppliesAhead({
        ...{ book, route, at, holds, from_km, log },
        ...{ p: confidence, water_before: waterBefore(book) },
      }),
    };
  } catch (error) {
    // the route's own page says what is the matter with it
    if (error instanceof DomainError) return null;
    throw error;
  }
}

function trailersOn(book: Book, route: Body, at: string): Pick<Ahead, "left" | "added"> {
  const { trailers_on } = presentAt(book, at);
  const taken = trailersFor({ book, route, trailers_on });
  const names = (wanted: (id: string) => boolean) =>
    book.trailers.filter(({ id }) => wanted(id)).map(({ body }): string => body.name);
  return {
    left: names((id) => trailers_on.includes(id) && !taken.includes(id)),
    added: names((id) => taken.includes(id) && !trailers_on.includes(id)),
  };
}

/** Days from one place of a route to another, as planned; null where the route does not say any. */
export function daysBetween(route: Body, from_km: number, to_km: number): number | null {
  const says = route.day_km || (route.legs as readonly Body[]).some((leg) => leg.days != null);
  return says ? daysTo(route, to_km) - daysTo(route, from_km) : null;
}

/** Kilometres by surface, the longest first, a trailer left out. */
export function surfacesOf({ way }: NextSupply): [surface: string, km: number][] {
  const kms = new Map<string, number>();
  for (const [name, km] of Object.entries(way)) {
    const surface = name.replace(WITH_TRAILER, "");
    kms.set(surface, (kms.get(surface) ?? 0) + km);
  }
  return [...kms].filter(([, km]) => km >= 0.5).sort((a, b) => b[1] - a[1]);
}

/** Kilometres of the way with a trailer on. */
export function towedKm({ way }: NextSupply): number {
  const towed = Object.entries(way).filter(([name]) => name.endsWith(WITH_TRAILER));
  return towed.reduce((sum, [, km]) => sum + km, 0);
}

/** The nearest supplies behind and ahead of a place, whatever is known of them, of fuel or of water. */
export function around(route: Body, at_km: number): readonly Body[] {
  const all = [...((route.supplies ?? []) as readonly Body[])].sort((a, b) => a.at_km - b.at_km);
  const behind = all.filter((one) => one.at_km <= at_km).at(-1);
  const ahead = all.find((one) => one.at_km > at_km);
  return [behind, ahead].filter((one): one is Body => one !== undefined);
}
