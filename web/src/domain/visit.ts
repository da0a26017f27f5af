/** A weighing as recorded, read as numbers: bridge, readings, and which loads the readings alone fix. */

import type { FixedSums } from "./agreement";
import { SINGLES, WHEELS } from "./axles";
import { type Body, type Book, bodyOfDay, type Row } from "./book";
import { type Bridge, belowMin, bridgeOf } from "./bridge";
import { revisionsOf, stateOf } from "./day";
import { belowZero, type Deck, ENDS, readDeck } from "./deck";
import { seatPart } from "./parts";
import { geometryOf, towedTrailer } from "./plan";
import { repeatsApart, type Typed } from "./slips";
import type { State } from "./state";
import type { Loads, Part } from "./statics";
import { mergeRepeats, type Reading, type SplitSetup } from "./weighing";

export const CG_HEIGHT_M = 0.8; // laden mid-size four-wheel drive (from memory); only the deck's tilt rests on it
export const SHORT_WHEELBASE_M = 2.6; // where it is not known: short makes the tilt rather too great (assumed)
export const VEHICLE_AXLES: readonly string[] = [...ENDS, ...SINGLES, ...WHEELS];

/** A load that the readings fix without any plan. */
export interface Measured {
  readonly row: string;
  readonly value_kg: number;
  readonly u_kg: number;
}

/** Readings, the loads they fix, and whether they agree; p is null where there is nothing to test. */
export interface Visit {
  readonly id: string;
  readonly at: string;
  readonly bridge: Bridge;
  readonly state: State;
  /** The trailer that was coupled in the state of the visit. */
  readonly trailer_id: string | null;
  readonly deck: Deck;
  /** The readings as they came, before repeats are merged. */
  readonly taken: readonly Reading[];
  readonly typed: Readonly<Record<string, Typed>>;
  readonly readings: readonly Reading[];
  readonly setup: SplitSetup;
  readonly measured: readonly Measured[];
  readonly loads: Loads;
  readonly chi2: number;
  readonly p: number | null;
  readonly agree: boolean;
  /** Readings below the scale's Min, where no limit of error holds. */
  readonly light: readonly string[];
}

/** The measured load of one row, if the readings fix it. */
export function measuredOf(visit: Visit, row: string): Measured | null {
  return visit.measured.find((one) => one.row === row) ?? null;
}

export interface ReadVisit {
  readonly book: Book;
  readonly weighing: Row;
}

/** One weighing as numbers; readings set aside do not count, repeats are merged, blanks take the public bridge. */
export function readVisit({ book, weighing }: ReadVisit): Visit {
  const body = weighing.body;
  const state = stateOf({ book, weighing });
  const bridge = bridgeOf({ key: weighing.id, body: body.bridge });
  const trailer = towedTrailer({ book, state });
  const deck = deckOf(book, weighing, state, trailer !== null);
  const taken = [...readingsOf(body, state, trailer !== null)];
  const readings = mergeRepeats({ readings: taken });
  const setup = setupOf(readings, book.vehicle?.body ?? {});
  const found = readDeck({ readings, bridge, setup, deck });
  const loads = { rows: found?.rows ?? [], mean_kg: found?.mean_kg ?? [], cov_kg2: found?.cov_kg2 ?? [] };
  return {
    id: weighing.id,
    at: body.at,
    bridge,
    state,
    trailer_id: trailer?.id ?? null,
    deck,
    taken,
    typed: typedOf(body),
    readings,
    setup,
    measured: measuredIn(loads),
    loads,
    chi2: found?.chi2 ?? 0,
    p: found?.p ?? null,
    agree: agreeing(found) && repeatsApart({ readings: taken, bridge }).length === 0,
    light: readings.filter(({ value_kg }) => belowMin({ bridge, value_kg })).map((one) => one.id),
  };
}

/** How the loads of the visit hang together; without a length that is not known. */
function deckOf(book: Book, weighing: Row, state: State, towed: boolean): Deck {
  const geometry = book.vehicle?.body.wheelbase_m == null ? null : geometryOf({ book, state });
  return { geometry, towed, occupants: [...occupantsOf(book, state, revisionsOf({ weighing }))] };
}

function* occupantsOf(
  book: Book,
  state: State,
  revisions: Readonly<Record<string, string>> | null,
): Iterable<Part> {
  const seats = new Map([...book.seats, ...book.gone].map((seat) => [seat.id, seat]));
  for (const load of state.seats) {
    const seat = seats.get(load.seat_id);
    if (!seat) continue;
    const body = bodyOfDay(book, seat, revisions?.[seat.id] ?? null);
    if (body.x_m != null) yield seatPart(load, body);
  }
}

function* readingsOf(body: Body, state: State, towed: boolean): Iterable<Reading> {
  const single = (body.bridge.form || "single_deck") === "single_deck";
  const seated = new Set(state.seats.map((load) => load.seat_id));
  for (const one of body.readings) {
    if (one.struck_out) continue;
    const differs: Body = one.differs ?? {};
    const behind = differs.uncoupled || !towed ? "trailer" : "trailer_axles";
    const on = (one.on_deck as string[]).map((axle) => (axle === "trailer" ? behind : axle));
    const axles = [...new Set(on)].sort();
    yield {
      id: one.id,
      axles,
      value_kg: one.value_kg,
      split: Boolean(one.split ?? (single && beside({ axles }))),
      deck: one.deck || "",
      approach: one.approach || "",
      without: ((differs.seats_empty ?? []) as string[])
        .filter((seat) => seated.has(seat))
        .map((seat) => `${seat}:occupant`),
      uncoupled: Boolean(differs.uncoupled) && towed,
    };
  }
}

function agreeing(found: FixedSums | null): boolean {
  return !found || (found.agree && belowZero({ found }).length === 0);
}

/** What was typed: digits, and how many kg one of them is. */
function typedOf(body: Body): Record<string, Typed> {
  return Object.fromEntries(
    (body.readings as Body[]).map((one) => {
      const [digits] = (one.as_typed?.value_kg ?? [String(one.value_kg)]) as [string];
      return [one.id, { digits, unit_kg: Number(digits) ? one.value_kg / Number(digits) : 1 }];
    }),
  );
}

/**
 * Whether a part of what hangs together stood beside the deck: some axles of the vehicle, or a coupled trailer's alone.
 * The whole vehicle before its trailer counts as whole: the coupling passes hardly any tilt.
 */
export function beside({ axles }: { readonly axles: readonly string[] }): boolean {
  const own = axles.filter((axle) => VEHICLE_AXLES.includes(axle));
  return own.length > 0 ? !covers(own) : axles.includes("trailer_axles");
}

function covers(axles: readonly string[]): boolean {
  const all = (whole: readonly string[]) => whole.every((axle) => axles.includes(axle));
  const front = all(["front"]) || all(["front_left", "front_right"]);
  return front && (all(["rear"]) || all(SINGLES) || all(["rear_left", "rear_right"]));
}

function setupOf(readings: readonly Reading[], vehicle: Body): SplitSetup {
  const whole = readings.find((one) => one.axles.join("+") === "front+rear");
  const ends = ENDS.flatMap((end) => readings.find((one) => one.axles.join("+") === end) ?? []);
  const alone = ends.length > 0 ? ends : readings.filter((one) => one.axles.length === 1).slice(0, 1);
  const together = alone.reduce((total, reading) => total + reading.value_kg, 0);
  return {
    total_kg: whole ? whole.value_kg : ends.length === 2 ? together : 2 * together,
    wheelbase_m: vehicle.wheelbase_m || SHORT_WHEELBASE_M,
    cg_height_m: vehicle.cg_height_m || CG_HEIGHT_M,
  };
}

function measuredIn({ rows, mean_kg, cov_kg2 }: Loads): Measured[] {
  return rows.map((row, k) => ({
    row,
    value_kg: mean_kg[k]!,
    u_kg: Math.sqrt(Math.max(cov_kg2[k]![k]!, 0)),
  }));
}
