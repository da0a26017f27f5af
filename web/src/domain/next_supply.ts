/** Which certain supplies come next along a route, and what has to be taken on here so that they are reached. */
import type { Bank } from "./bank";
import type { Body, Book } from "./book";
import { Unknown } from "./errors";
import { usualReserve } from "./fuel";
import type { FuelLog } from "./fuel_log";
import { type Itinerary, itinerary, trailersFor } from "./itinerary";
import { lowerBanks } from "./journal";
import { seconds } from "./log_rows";
import { cutWay, SAME_KM } from "./pieces";
import type { Counting } from "./remain";
import { routeAnswer } from "./route";
import { loggedState } from "./state";
import type { Stretch } from "./stretch";
import { fuelLogOf, waterLogOf, waterShare } from "./supplies";
import { peopleAboard, placedKm } from "./underway";
import { uncountedWater } from "./water";
import { waterBanks } from "./water_answer";
import type { WaterLog } from "./water_log";

/** A supply no further ahead than this is where the vehicle is: the odometer knows it no better (assumed). */
export const HERE_KM = 5;
/** The next supply, and the one after if that is shut. */
export const MOST = 2;

/** A certain supply ahead with nothing taken on before it; litres below zero where they would be used up. */
export interface NextSupply {
  /** Its number in the record; null: the end. */
  readonly supply: number | null;
  readonly at_km: number;
  readonly distance_km: number;
  /** True km by class until there, for water person-days. */
  readonly way: Readonly<Record<string, number>>;
  readonly probability: number;
  readonly likely_l: number;
  readonly count_on_l: number;
  /** The least to take on here with which it is reached; null: no amount does. */
  readonly least_l: number | null;
  readonly room_l: number;
  /** Filled up here. */
  readonly full_probability: number;
}

export interface AskAhead {
  readonly book: Book;
  readonly route: Body;
  readonly at: string;
  readonly holds: "fuel" | "water";
  readonly from_km?: number | null;
  readonly p?: number;
  /** The book's fuel log where it has been read. */
  readonly log?: FuelLog | null;
  /** The water log of nearly the same book, to go on from. */
  readonly water_before?: WaterLog | null;
}

/** The next certain supplies from where the vehicle is, by the log until an instant; none without a log or at the end. */
export function suppliesAhead(asked: AskAhead): NextSupply[] {
  const { book, route, at, holds, from_km: said = null, p = 0.95, log: known = null } = asked;
  checkHolds(holds);
  const from_km = said ?? placedKm({ book, route, at });
  const on = loggedState({ book, at }).trailers_on ?? [];
  const shares = Object.fromEntries(book.people.map(({ id, body }) => [id, waterShare({ person: body })]));
  const aboard = peopleAboard({ book, at });
  const way = itinerary({ route, shares, aboard, towing: on.length > 0, from_km });
  if (holds === "water") {
    const trailers_on = trailersFor({ book, route, trailers_on: on });
    const water = waterLogOf({ book, until: at, trailers_on, previous: asked.water_before ?? null });
    if (!water || water.journal.steps.length === 0) return [];
    const usual = uncountedWater(water.setup);
    const counting = { reserve_l: route.water_reserve_l ?? water.setup.reserve_l ?? usual };
    const banks = waterBanks({ log: water, now_s: seconds(at) });
    return nextSupplies({ banks, way, holds, from_km, p, counting });
  }
  const ahead = [...new Set(way.fuel.flatMap((stretch) => Object.keys(stretch.way)))].sort();
  const fits = known && ahead.every((name) => known.model.class_ids.includes(name));
  const log = fits ? known : fuelLogOf({ book, until: at, ahead, previous: known });
  if (!log || log.journal.steps.length === 0) return [];
  const { tanks, factor = 1, factor_u = 0, reserve_l: own } = log.setup;
  const counting = { factor, factor_u, reserve_l: route.fuel_reserve_l ?? own ?? usualReserve({ tanks }) };
  const banks = lowerBanks({ state: log.journal.state });
  return nextSupplies({ banks, way, holds, from_km, p, counting });
}

export interface NextSupplies {
  readonly banks: readonly Bank[];
  readonly way: Itinerary;
  readonly holds: "fuel" | "water";
  readonly from_km: number;
  readonly p?: number;
  readonly counting?: Counting | null;
  readonly most?: number;
}

/** The next counted supplies of a way and then its end, each from here without the others; of several banks the least. */
export function nextSupplies(asked: NextSupplies): NextSupply[] {
  const { way, holds, from_km, most = MOST } = asked;
  checkHolds(holds);
  const [stops, numbers] =
    holds === "fuel" ? [way.fuel_stops, way.fuel_supplies] : [way.water_stops, way.water_supplies];
  const places = new Map<number, number | null>();
  const put = (at_km: number, supply: number | null) => {
    const isIn = [...places.keys()].some((one) => Math.abs(one - at_km) <= SAME_KM);
    if (at_km > from_km + HERE_KM && !isIn) places.set(at_km, supply);
  };
  for (const [n, { at_km, counted }] of stops.entries()) if (counted) put(at_km, numbers[n]!);
  put(way.total_km, null);
  return [...places].slice(0, most).map(([to_km, supply]) => reached(asked, supply, to_km));
}

function checkHolds(holds: string): void {
  if (holds !== "fuel" && holds !== "water") throw new Unknown("holds", holds, ["fuel", "water"]);
}

function reached(asked: NextSupplies, supply: number | null, to_km: number): NextSupply {
  const { banks, way, holds, from_km, p = 0.95, counting = null } = asked;
  const { stretches, amounts } = onward(holds === "fuel" ? way.fuel : way.water, from_km, to_km);
  const stops = [
    { at_km: from_km, counted: true, take_l: 0 },
    { at_km: to_km, counted: true },
  ];
  const found = banks.map((bank) => routeAnswer({ bank, stretches, stops, from_km, p, counting }));
  const here = found.map((one) => one.stops[0]!);
  const there = found.map((one) => one.points.at(-1)!);
  const least = here.flatMap((one) => one.least_l ?? []);
  return {
    supply,
    at_km: to_km,
    distance_km: to_km - from_km,
    way: amounts,
    probability: Math.min(...found.map((one) => one.sections[0]!.probability)),
    likely_l: Math.min(...there.map((one) => one.likely_l)),
    count_on_l: Math.min(...there.map((one) => one.count_on_l)),
    least_l: least.length === here.length ? Math.max(...least) : null,
    room_l: Math.max(...here.map((one) => one.room_l)),
    full_probability: Math.min(...here.map((one) => one.full_probability ?? 0)),
  };
}

/** Stretches up to a place, of stays there none, and their amounts by class from here on, of a stay here all. */
function onward(given: readonly Stretch[], from_km: number, to_km: number) {
  const road = cutWay({ stretches: given, at_km: [to_km], from_km });
  const ahead = road.ahead.filter((one) => one.from_km < road.at_km[0]!);
  const amounts: Record<string, number> = {};
  for (const { way } of ahead)
    for (const [name, amount] of Object.entries(way)) amounts[name] = (amounts[name] ?? 0) + amount;
  const stretches = [...road.behind, ...ahead].map(
    ({ from_km: a, to_km: b, way, points = 1 }): Stretch => ({ distance_km: b - a, way, points }),
  );
  return { stretches, amounts };
}
