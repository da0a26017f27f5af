/** A route's record as stretches: surfaces for fuel, person-days for water, and the supplies along it. */
import type { Body, Book } from "./book";
import { mixOf } from "./fuel";
import { cutWay, type Piece, SAME_KM } from "./pieces";
import type { Stop } from "./route";
import type { Stretch } from "./stretch";
import { CLASS } from "./water";

/** The way of a day, where neither the leg nor the route says (assumed). */
export const DAY_KM = 300;
/** Into about so many a picture of the whole way is cut. */
export const PIECES = 40;

/** The way cut at each supply and change, for fuel and water alike, with the supplies of the record behind the stops. */
export interface Itinerary {
  readonly total_km: number;
  readonly days: number;
  readonly fuel: readonly Stretch[];
  readonly water: readonly Stretch[];
  readonly fuel_stops: readonly Stop[];
  readonly water_stops: readonly Stop[];
  readonly fuel_supplies: readonly number[];
  readonly water_supplies: readonly number[];
}

export interface AskItinerary {
  readonly route: Body;
  /** Of an adult's water, by person. */
  readonly shares: Readonly<Record<string, number>>;
  readonly aboard: readonly string[];
  readonly towing?: boolean;
  readonly from_km?: number;
  /** Supplies struck out besides those of the record, by their numbers. */
  readonly shut?: readonly number[];
}

/** What a route asks of fuel and water; surfaces that do not add up to 1 and places beyond the way are refused. */
export function itinerary(asked: AskItinerary): Itinerary {
  const { route, shares, aboard, towing = false, from_km = 0, shut = [] } = asked;
  const bare = (route.legs as readonly Body[]).map((leg) => legOf(leg, route, towing));
  const total_km = sum(bare.map((leg) => leg.distance_km));
  const stretches = bare.map((leg) => ({
    ...leg,
    points: total_km > 0 ? Math.max(1, Math.ceil((PIECES * leg.distance_km) / total_km)) : 1,
  }));
  const changes = changesOf({ route });
  const places = [...suppliesOf({ route }), ...changes].map((one): number => one.at_km);
  const ends = changes.flatMap((one): number[] => one.until_km ?? []).filter((end) => end <= total_km);
  const pieces = cutWay({ stretches, at_km: [...places, ...ends, from_km] }).ahead;
  const peopleAt = (at_km: number) =>
    sum(travellers({ route, aboard, at_km, from_km }).map((person) => shares[person] ?? 1));
  const [fuel, water] = [stopsOf(route, "fuel", shut), stopsOf(route, "water", shut)];
  return {
    total_km,
    days: sum(bare.map((leg) => leg.way[DAYS] ?? 0)),
    fuel: pieces.map((piece) => {
      const { [DAYS]: _, ...way } = piece.way;
      return stretchOf(piece, way);
    }),
    water: pieces.map((piece) =>
      stretchOf(piece, { [CLASS]: peopleAt(piece.from_km) * (piece.way[DAYS] ?? 0) }),
    ),
    fuel_stops: fuel.map(({ stop }) => stop),
    water_stops: water.map(({ stop }) => stop),
    fuel_supplies: fuel.map(({ n }) => n),
    water_supplies: water.map(({ n }) => n),
  };
}

export interface Travellers {
  readonly route: Body;
  readonly aboard: readonly string[];
  readonly at_km: number;
  readonly from_km?: number;
}

/** Who travels from a place of the route on: the record's people or those aboard, with who came and went before. */
export function travellers({ route, aboard, at_km, from_km = 0 }: Travellers): string[] {
  const named: readonly string[] | null = route.people_ids ?? null;
  let present = [...(named ?? aboard)];
  const changes = [...changesOf({ route })].sort((a, b) => a.at_km - b.at_km);
  for (const { at_km: at, what, subject_id: person, aboard: comes } of changes) {
    if (what !== "person" || person == null || at > at_km + SAME_KM) continue;
    if (named === null && at < from_km - SAME_KM) continue;
    if (comes === false) present = present.filter((one) => one !== person);
    else if (!present.includes(person)) present.push(person);
  }
  return present;
}

export interface TrailersFor {
  readonly book: Book;
  readonly route: Body;
  readonly trailers_on: readonly string[];
}

/** The trailers of a route: a leg that tows puts one on for the whole way, the one that is on or the book's first (assumed). */
export function trailersFor({ book, route, trailers_on }: TrailersFor): readonly string[] {
  const tows = (route.legs as readonly Body[]).map((leg): boolean | null => leg.towing ?? null);
  if (!tows.includes(true) && !(trailers_on.length > 0 && tows.includes(null))) return [];
  return trailers_on.length > 0 ? trailers_on : book.trailers.slice(0, 1).map((one) => one.id);
}

interface OfRoute {
  readonly route: Body;
}

/** The supplies of a route's record. */
export function suppliesOf({ route }: OfRoute): readonly Body[] {
  return route.supplies ?? [];
}

/** What comes aboard or goes on a route, by its record. */
export function changesOf({ route }: OfRoute): readonly Body[] {
  return route.changes ?? [];
}

const DAYS = "days";

function legOf(leg: Body, route: Body, towing: boolean): Stretch {
  const { distance_km, surface, days } = leg as {
    distance_km: number;
    surface: Record<string, number>;
    days?: number;
  };
  const tows = leg.towing ?? towing;
  const mix = mixOf({ surface, towing: tows });
  const way: Record<string, number> = {};
  if (distance_km > 0) for (const [name, share] of Object.entries(mix)) way[name] = share * distance_km;
  way[DAYS] = days ?? distance_km / (route.day_km || DAY_KM);
  return { distance_km, way };
}

function stopsOf(route: Body, holds: "fuel" | "water", shut: readonly number[]): { n: number; stop: Stop }[] {
  return suppliesOf({ route })
    .map((supply, n) => ({ supply, n }))
    .filter(({ supply }) => supply[holds])
    .sort((a, b) => a.supply.at_km - b.supply.at_km)
    .map(({ supply, n }) => ({
      n,
      stop: {
        at_km: supply.at_km,
        counted: Boolean(supply.certain) && !supply.shut && !supply[`${holds}_shut`] && !shut.includes(n),
        take_l: supply[`${holds}_take_l`] ?? null,
      },
    }));
}

function stretchOf({ from_km, to_km, points = 1 }: Piece, way: Readonly<Record<string, number>>): Stretch {
  return { distance_km: to_km - from_km, way, points };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, one) => total + one, 0);
}
