/** Fuel or water along a planned way: stretch by stretch, with supplies that are counted on or not. */
import { type Bank, bankAdvance, bankTotal, bankWeights, mixture, type Value } from "./bank";
import { checkRange } from "./errors";
import { cutWay, type Piece, partOf, type Road, SAME_KM, wayBack } from "./pieces";
import { type Counting, checkCounting, LIMIT, litresAt, TOLERANCE, untouched } from "./remain";
import { evenUse, oneTank, type Stretch, TOGETHER, type Way } from "./stretch";

/** Halvings of a piece until a place on it is found. */
export const HALVINGS = 40;

/** A place along the way where it can be had. `take_l` null fills up, but where the way begins or ends takes nothing. */
export interface Stop {
  readonly at_km: number;
  readonly counted: boolean;
  readonly take_l?: number | null;
}

/** Litres left at a place, below zero where they would be used up; `taken`: after something was taken on here. */
export interface RoutePoint {
  readonly at_km: number;
  readonly left: Value;
  readonly likely_l: number;
  readonly count_on_l: number;
  readonly probability: number;
  readonly taken: boolean;
}

/** A supply on arrival, and of a counted one the least to take on for the next counted one or the end. */
export interface StopAnswer {
  readonly at_km: number;
  readonly counted: boolean;
  readonly likely_l: number;
  readonly count_on_l: number;
  readonly probability: number;
  readonly room_l: number;
  readonly least_l: number | null;
  readonly full_probability: number | null;
}

/** The way from one counted supply to the next, or to the end; places are null where they are not within it. */
export interface Section {
  readonly from_km: number;
  readonly to_km: number;
  readonly probability: number;
  readonly count_on_km: number | null;
  readonly likely_km: number | null;
  readonly no_return_km: number | null;
}

/** The whole way from where the vehicle is. `tight`: the section with the least probability, by its number. */
export interface RouteAnswer {
  readonly points: readonly RoutePoint[];
  readonly stops: readonly StopAnswer[];
  readonly sections: readonly Section[];
  readonly tight: number;
  readonly capacity_l: number;
  readonly reserve_l: number;
}

export interface AskRoute {
  readonly bank: Bank;
  readonly stretches: readonly Stretch[];
  readonly stops?: readonly Stop[];
  readonly from_km?: number;
  readonly p?: number;
  readonly counting?: Counting | null;
}

/** What is left along a way in a known order, stepped from the bank's state at `from_km`. */
export function routeAnswer({
  bank,
  stretches,
  stops = [],
  from_km = 0,
  p = 0.95,
  counting,
}: AskRoute): RouteAnswer {
  checkRange("p", p, { above: 0, below: 1 });
  checkCounting({ counting: counting ?? {} });
  const asked = { p, factor: 1, factor_u: 0, reserve_l: 0, ...counting };
  const road = cutWay({ stretches, at_km: [from_km, ...stops.map((stop) => stop.at_km)], from_km });
  const placed = stops.map((stop, k) => ({ ...stop, at_km: road.at_km[k + 1]! }));
  const pooled = oneTank({ bank });
  const { points, visits, sections } = drive(
    { bank: pooled, used: bank.kappas.map(() => 0) },
    road,
    placed,
    asked,
  );
  const some = sections.filter((one) => one.pieces.some(leadsOn));
  const judged = (some.length > 0 ? some : sections.slice(0, 1)).map((one) => judge(one, road.behind, asked));
  return {
    points,
    stops: visits.map((visit) => tell(visit, asked)),
    sections: judged,
    tight: judged.reduce((best, one, n) => (one.probability < judged[best]!.probability ? n : best), 0),
    capacity_l: pooled.model.capacity_l[0]!,
    reserve_l: asked.reserve_l,
  };
}

export interface TakesOn {
  readonly stop: Stop;
  readonly from_km: number;
  readonly to_km: number;
}

/** Whether something is taken on at a stop of a way: it is counted, and at both ends litres are named. */
export function takesOn({ stop: { at_km, counted, take_l = null }, from_km, to_km }: TakesOn): boolean {
  const ends = take_l === null && Math.min(Math.abs(at_km - from_km), Math.abs(at_km - to_km)) <= SAME_KM;
  return counted && at_km >= from_km - SAME_KM && !ends && take_l !== 0;
}

interface Asked extends Required<Counting> {
  readonly p: number;
}

/** The bank of one tank, and by kappa what was used since a level was last known. */
interface Held {
  readonly bank: Bank;
  readonly used: readonly number[];
}

interface Driven {
  start: Held;
  readonly from_km: number;
  back_km: number | null;
  readonly pieces: Piece[];
}

interface Visit {
  readonly stop: Stop;
  readonly arrival: Held;
  readonly section: Driven | null;
}

interface Trip {
  readonly points: RoutePoint[];
  readonly visits: Visit[];
  readonly sections: Driven[];
}

function drive(start: Held, road: Road, stops: readonly Stop[], asked: Asked): Trip {
  const from_km = road.at_km[0]!;
  const to_km = road.ahead.at(-1)?.to_km ?? from_km;
  const behind = stops.filter((stop) => stop.counted && stop.at_km < from_km).map((stop) => stop.at_km);
  const ahead = stops.filter((stop) => stop.at_km >= from_km).sort((a, b) => a.at_km - b.at_km);
  let [now, at_km] = [start, from_km];
  let section: Driven = { start, from_km, back_km: behind.length ? Math.max(...behind) : null, pieces: [] };
  const trip: Trip = { points: [pointAt(at_km, now, asked, false)], visits: [], sections: [section] };
  const stopsUntil = (until_km: number) => {
    while (ahead.length > 0 && ahead[0]!.at_km <= until_km) {
      const stop = ahead.shift()!;
      const arrival = now;
      if (stop.counted) {
        if (takesOn({ stop, from_km, to_km })) {
          now = taken(arrival, stop.take_l ?? null);
          trip.points.push(pointAt(at_km, now, asked, true));
        }
        if (stop.at_km === section.from_km) Object.assign(section, { start: now, back_km: stop.at_km });
        else {
          section = { start: now, from_km: stop.at_km, back_km: stop.at_km, pieces: [] };
          trip.sections.push(section);
        }
      }
      trip.visits.push({ stop, arrival, section: stop.counted ? section : null });
    }
  };
  for (const piece of road.ahead) {
    stopsUntil(piece.from_km);
    const before = now;
    const points = piece.points ?? 1;
    for (let n = 1; n <= points; n++) {
      const part = partOf({ piece, share: n / points });
      [now, at_km] = [driven(before, part.way, asked), part.to_km];
      trip.points.push(pointAt(at_km, now, asked, false));
    }
    section.pieces.push(piece);
  }
  stopsUntil(at_km);
  return trip;
}

function pointAt(at_km: number, now: Held, asked: Asked, isTaken: boolean): RoutePoint {
  const levels = levelsOf(now, asked);
  const { parts, weights } = levels;
  return {
    at_km,
    left: mixture({ means: parts.map(([m]) => m), variances: parts.map(([, v]) => v), weights }),
    likely_l: litresAt({ ...levels, p: 0.5 }),
    count_on_l: litresAt({ ...levels, p: asked.p }),
    probability: reachOf(now, asked),
    taken: isTaken,
  };
}

/** Mean and variance of what is left, by kappa. */
function levelsOf({ bank, used }: Held, { factor, factor_u }: Asked) {
  const parts = bank.estimates.map(({ mean, cov }, j): [number, number] => [
    mean[0]!,
    cov[0]![0]! + ((used[j]! * factor_u) / factor) ** 2,
  ]);
  return { parts, weights: bankWeights({ bank }) };
}

function reachOf(now: Held, asked: Asked): number {
  return untouched({ ...levelsOf(now, asked), reserve_l: asked.reserve_l });
}

/** Whether a piece is any way at all, or a stay that uses something. */
function leadsOn({ from_km, to_km, way }: Piece): boolean {
  return to_km > from_km || Object.values(way).some((amount) => amount > 0);
}

function driven({ bank: before, used }: Held, way: Way, { factor }: Asked): Held {
  const indicated = Object.fromEntries(Object.entries(way).map(([name, amount]) => [name, amount / factor]));
  const bank = evenUse({ bank: before, way: indicated });
  const gone = (j: number) => before.estimates[j]!.mean[0]! - bank.estimates[j]!.mean[0]!;
  return { bank, used: used.map((one, j) => one + gone(j)) };
}

/** Filled up, or with some litres more; what does not fit fills up. */
function taken({ bank, used }: Held, take_l: number | null): Held {
  const { full_u_l, fill_u } = bank.model.settings;
  const capacity = bank.model.capacity_l[0]!;
  if (take_l === null || bankTotal({ bank }).mean + take_l >= capacity) {
    const full = { kind: "start", tank_id: TOGETHER, litres_l: capacity, litres_u_l: full_u_l } as const;
    return { bank: bankAdvance({ bank, event: full }), used: used.map(() => 0) };
  }
  const estimates = bank.estimates.map((one) => {
    const [first, ...rest] = one.cov;
    const top = [first![0]! + (fill_u * take_l) ** 2, ...first!.slice(1)];
    return { ...one, mean: [one.mean[0]! + take_l, ...one.mean.slice(1)], cov: [top, ...rest] };
  });
  return { bank: { ...bank, estimates }, used };
}

type Chance = (now: Held, so_far: readonly Piece[]) => number;

function judge(section: Driven, behind: readonly Piece[], asked: Asked): Section {
  const { pieces, from_km, back_km } = section;
  const end = pieces.reduce((now, piece) => driven(now, piece.way, asked), section.start);
  const onward: Chance = (now) => reachOf(now, asked);
  const back: Chance = (now, so_far) => {
    const ways = wayBack({ pieces: [...behind, ...so_far], to_km: back_km ?? 0 });
    return reachOf(
      ways.reduce((gone, way) => driven(gone, way, asked), now),
      asked,
    );
  };
  return {
    from_km,
    to_km: pieces.at(-1)?.to_km ?? from_km,
    probability: reachOf(end, asked),
    count_on_km: firstBelow(section, asked, asked.p, onward),
    likely_km: firstBelow(section, asked, 0.5, onward),
    no_return_km: back_km === null ? null : firstBelow(section, asked, asked.p, back),
  };
}

/** The first place of a section where a probability is below p. */
function firstBelow(
  { start, from_km, pieces }: Driven,
  asked: Asked,
  p: number,
  chance: Chance,
): number | null {
  let now = start;
  if (chance(now, []) < p) return from_km;
  for (const [n, piece] of pieces.entries()) {
    const so_far = pieces.slice(0, n);
    const after = driven(now, piece.way, asked);
    if (chance(after, [...so_far, piece]) < p) {
      let [low, high] = [0, 1];
      for (let k = 0; k < HALVINGS; k++) {
        const share = (low + high) / 2;
        const middle = partOf({ piece, share });
        if (chance(driven(now, middle.way, asked), [...so_far, middle]) < p) high = share;
        else low = share;
      }
      return partOf({ piece, share: low }).to_km;
    }
    now = after;
  }
  return null;
}

function tell({ stop, arrival, section }: Visit, asked: Asked): StopAnswer {
  const levels = levelsOf(arrival, asked);
  const answer = {
    at_km: stop.at_km,
    counted: stop.counted,
    likely_l: litresAt({ ...levels, p: 0.5 }),
    count_on_l: litresAt({ ...levels, p: asked.p }),
    probability: reachOf(arrival, asked),
    room_l: Math.max(arrival.bank.model.capacity_l[0]! - bankTotal({ bank: arrival.bank }).mean, 0),
  };
  if (section === null) return { ...answer, least_l: null, full_probability: null };
  const onward = (from: Held) => section.pieces.reduce((now, piece) => driven(now, piece.way, asked), from);
  return {
    ...answer,
    least_l: leastOf(onward(arrival), asked),
    full_probability: reachOf(onward(taken(arrival, null)), asked),
  };
}

/** Litres that had to be there more for the reserve to be untouched with probability p. */
function leastOf(now: Held, asked: Asked): number | null {
  const { parts, weights } = levelsOf(now, asked);
  const { fill_u } = now.bank.model.settings;
  const short = (litres: number) => {
    const more = parts.map(([m, v]): [number, number] => [m + litres, v + (fill_u * litres) ** 2]);
    return untouched({ parts: more, weights, reserve_l: asked.reserve_l }) < asked.p;
  };
  if (!short(0)) return 0;
  let [low, high] = [0, 1];
  while (short(high)) {
    if (high >= LIMIT) return null;
    [low, high] = [high, 2 * high];
  }
  while (high - low > TOLERANCE) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (short(middle)) low = middle;
    else high = middle;
  }
  return high;
}
