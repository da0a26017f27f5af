/** What was heard or found of supplies on the road: shut, without fuel or water, open again. */
import type { Body, Book, Row } from "./book";
import { suppliesOf } from "./itinerary";
import { seconds } from "./log_rows";
import { DAY_S } from "./water";

/** What takes fuel, and what takes water, from a place; the other words say nothing of it. */
export const WITHOUT: Readonly<Record<"fuel" | "water", readonly string[]>> = {
  fuel: ["shut", "no_fuel"],
  water: ["shut", "no_water"],
};
export const OPEN = "open";
/** As either language has them, and what is no letter. */
export const SPACES = /[\s\p{Cc}\ufeff]+/gu;

/** What somebody said of a place, and when: one of `open`, `shut`, `no_fuel`, `no_water`. */
export interface Report {
  readonly entry_id: string;
  readonly found: string;
  readonly at: string;
  readonly author: string;
  readonly note: string;
}

/** A place and the latest that was said of its fuel and of its water; null where nothing was. */
export interface Reported {
  readonly name: string;
  readonly fuel: Report | null;
  readonly water: Report | null;
}

export interface ReportsOf {
  readonly book: Book;
  readonly at: string;
}

/** The latest said of each place, by its name, until an instant and a day after, for another phone's clock may be ahead. */
export function reportsOf({ book, at }: ReportsOf): Reported[] {
  const latest_s = seconds(at) + DAY_S;
  const said = new Map<string, Row[]>();
  for (const row of book.events) {
    if (row.body.what !== "supply" || seconds(row.body.at) > latest_s) continue;
    const name = placeName({ name: row.body.supply });
    said.set(name, [...(said.get(name) ?? []), row]);
  }
  return [...said].map(([name, rows]) => ({
    name,
    fuel: latest(rows, WITHOUT.fuel),
    water: latest(rows, WITHOUT.water),
  }));
}

export interface AsReported extends ReportsOf {
  readonly route: Body;
}

/** A route's record whose supplies say by `fuel_shut` and `water_shut` what was last reported, or what it says itself. */
export function asReported({ book, route, at }: AsReported): Body {
  const known = new Map(reportsOf({ book, at }).map((one) => [one.name, one]));
  const supplies = suppliesOf({ route }).map((supply) => {
    const said = known.get(placeName({ name: supply.name }));
    const shut = Boolean(supply.shut);
    return {
      ...supply,
      shut: false,
      fuel_shut: isShut(said?.fuel, shut),
      water_shut: isShut(said?.water, shut),
    };
  });
  return { ...route, supplies };
}

/** What a place is known by: its name without capitals and spare spaces. */
export function placeName({ name }: { readonly name: string }): string {
  return name.replace(SPACES, " ").trim().toLowerCase();
}

function latest(rows: readonly Row[], without: readonly string[]): Report | null {
  const last = rows.findLast(({ body }) => body.found === OPEN || without.includes(body.found));
  if (!last) return null;
  const { found, at, note } = last.body;
  return { entry_id: last.id, found, at, author: last.author ?? "", note: note || "" };
}

function isShut(said: Report | null | undefined, shut: boolean): boolean {
  return said ? said.found !== OPEN : shut;
}
