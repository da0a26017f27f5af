/** A route of a book read and answered: fuel and water along it, and the loads. */
import type { Bank } from "./bank";
import type { Body, Book } from "./book";
import { usualReserve } from "./fuel";
import type { FuelLog } from "./fuel_log";
import { itinerary, trailersFor, travellers } from "./itinerary";
import { bankLevels, levelsNow, lowerBanks } from "./journal";
import type { Learning } from "./learning";
import { seconds } from "./log_rows";
import type { Counting } from "./remain";
import { type Drawn, type RoadLoads, roadLoads } from "./road_loads";
import { type RouteAnswer, routeAnswer, type Stop } from "./route";
import { loggedState } from "./state";
import type { Stretch } from "./stretch";
import { fuelLogOf, levelsAt, waterLogOf, waterShare } from "./supplies";
import { peopleAboard, placedKm } from "./underway";
import { uncountedWater } from "./water";
import { waterBanks } from "./water_answer";
import type { WaterLog } from "./water_log";

/** Litres of one content along a route; `supplies` are the record's numbers of the answer's stops. */
export interface Along {
  readonly answer: RouteAnswer;
  readonly supplies: readonly number[];
  /** Full tanks and levels that the rate rests on; with few the prior rules. */
  readonly readings: number;
}

/** A route answered from where the vehicle is. What no log or plan tells of is null. */
export interface Road {
  readonly total_km: number;
  readonly from_km: number;
  readonly days: number;
  readonly people: readonly string[];
  readonly fuel: Along | null;
  readonly water: Along | null;
  readonly loads: RoadLoads | null;
}

export interface AskRoad {
  readonly book: Book;
  readonly route: Body;
  readonly at: string;
  /** How far along it the vehicle is; null: as far as the odometer tells. */
  readonly from_km?: number | null;
  /** Supplies struck out besides those of the record, by their numbers. */
  readonly shut?: readonly number[];
  readonly learning?: Learning | null;
  /** As in `fuelLogOf`. */
  readonly previous?: FuelLog | null;
  /** As in `waterLogOf`. */
  readonly water_before?: WaterLog | null;
}

/** A route's record answered at an instant, from the logs until then, with the vehicle `from_km` along it. */
export function road(asked: AskRoad): Road {
  const { book, route, at, shut = [], learning = null, previous = null, water_before = null } = asked;
  const from_km = asked.from_km ?? placedKm({ book, route, at });
  const before = waterLogOf({ book, until: at, previous: water_before });
  const state = loggedState({ book, at, levels: levelsAt({ book, at, previous, water: before }) });
  const trailers_on = trailersFor({ book, route, trailers_on: state.trailers_on ?? [] });
  const aboard = peopleAboard({ book, at });
  const shares = Object.fromEntries(book.people.map(({ id, body }) => [id, waterShare({ person: body })]));
  const towing = (state.trailers_on ?? []).length > 0;
  const way = itinerary({ route, shares, aboard, towing, from_km, shut });
  const ahead = [...new Set(way.fuel.flatMap((stretch) => Object.keys(stretch.way)))].sort();
  const fuelLog = fuelLogOf({ book, until: at, ahead, previous });
  const waterLog = waterLogOf({ book, until: at, trailers_on, previous: before });
  const drawn: Record<string, Drawn> = {};
  let [fuel, water]: [Along | null, Along | null] = [null, null];
  if (fuelLog && fuelLog.journal.steps.length > 0) {
    const { tanks, factor = 1, factor_u = 0, reserve_l: own } = fuelLog.setup;
    const counting = { factor, factor_u, reserve_l: route.fuel_reserve_l ?? own ?? usualReserve({ tanks }) };
    const { state: now, model } = fuelLog.journal;
    const answer = lowest(lowerBanks({ state: now }), way.fuel, way.fuel_stops, from_km, counting);
    fuel = alongOf(fuelLog, answer, way.fuel_supplies);
    drawn.fuel = {
      answer,
      stops: way.fuel_stops,
      levels: levelsNow({ state: now }),
      settings: model.settings,
    };
  }
  if (waterLog && waterLog.journal.steps.length > 0) {
    const { settings } = waterLog.model;
    const usual = uncountedWater(waterLog.setup);
    const reserve_l = route.water_reserve_l ?? waterLog.setup.reserve_l ?? usual;
    const banks = waterBanks({ log: waterLog, now_s: seconds(at) });
    const answer = lowest(banks, way.water, way.water_stops, from_km, { reserve_l });
    water = alongOf(waterLog, answer, way.water_supplies);
    drawn.water = { answer, stops: way.water_stops, levels: bankLevels({ bank: banks[0]! }), settings };
  }
  const trip = { book, route, at, from_km, way: way.fuel, aboard };
  return {
    total_km: way.total_km,
    from_km,
    days: way.days,
    people: travellers({ route, aboard, at_km: from_km, from_km }),
    fuel,
    water,
    loads: roadLoads({ trip, state: { ...state, trailers_on }, drawn, learning }),
  };
}

function lowest(
  banks: readonly Bank[],
  stretches: readonly Stretch[],
  stops: readonly Stop[],
  from_km: number,
  counting: Counting,
): RouteAnswer {
  const answers = banks.map((bank) => routeAnswer({ bank, stretches, stops, from_km, counting }));
  const lowestOf = ({ points }: RouteAnswer) => Math.min(...points.map((point) => point.count_on_l));
  return answers.reduce((low, one) => (lowestOf(one) < lowestOf(low) ? one : low));
}

/** The supplies that lie ahead are the last ones, for they stand in order of distance. */
function alongOf(log: FuelLog | WaterLog, answer: RouteAnswer, supplies: readonly number[]): Along {
  const counted = log.journal.outcomes.filter((one) => one.held === null);
  const before = "rest" in log && log.rest ? log.rest.readings : 0;
  return {
    answer,
    supplies: supplies.slice(supplies.length - answer.stops.length),
    readings: counted.reduce((total, one) => total + one.readings.length, before),
  };
}
