/** How far along a route the odometer tells that the vehicle is, and who is aboard. */
import type { Body, Book } from "./book";
import { FACTOR } from "./fullfull";
import { rowsUntil, seconds } from "./log_rows";
import { presences } from "./supplies";

export interface PlacedKm {
  readonly book: Book;
  readonly route: Body;
  readonly at: string;
}

/** How far along a route the vehicle was last seen: by the odometer since the route began, within the way. */
export function placedKm({ book, route, at }: PlacedKm): number {
  const { fills, dips, transfers, events, weighings } = book;
  const rows = rowsUntil({ rows: [...fills, ...dips, ...transfers, ...events, ...weighings], until: at });
  const known = rows.flatMap(({ body }): number[] => body.odometer_km || []);
  const begun: number | null = route.begun_odometer_km ?? null;
  if (begun === null || known.length === 0 || !book.vehicle) return 0;
  const factor: number = book.vehicle.body.odometer_factor || FACTOR;
  const total = (route.legs as readonly Body[]).reduce((sum, leg) => sum + leg.distance_km, 0);
  return Math.min(Math.max((Math.max(...known) - begun) * factor, 0), total);
}

export interface PeopleAboard {
  readonly book: Book;
  readonly at: string;
}

/** The ids of people and animals who are aboard at an instant, seated or not. */
export function peopleAboard({ book, at }: PeopleAboard): string[] {
  const now = seconds(at);
  return book.people.flatMap((person) =>
    presences({ book: { ...book, people: [person] }, from_s: 0 })
      .filter(({ from_s, until_s = null }) => from_s <= now && (until_s === null || now < until_s))
      .map(() => person.id),
  );
}
