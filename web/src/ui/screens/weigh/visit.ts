/** A visit to a bridge while it goes on: what stands on the deck, which figures were taken, what comes next. Pure. */

import { guessedInterval } from "./interval";
import {
  type Axle,
  axleOf,
  type Layout,
  onSide,
  type Side,
  type Stop,
  sideOf,
  stop,
  stopsOf,
  wheelOf,
} from "./standing";

export type { Axle, Stop } from "./standing";
export { stopsOf } from "./standing";

/** How one reading's load differs from the state of the visit. */
export interface Differs {
  readonly uncoupled: boolean;
  readonly seats_empty: readonly string[];
}

export interface TakenReading {
  readonly id: string;
  readonly on_deck: readonly Axle[];
  readonly value_kg: number;
  readonly typed: readonly [digits: string, unit: string];
  readonly struck_out: string | null;
  readonly differs: Differs;
}

export interface Visit extends Differs, Layout {
  readonly at: string | null;
  readonly on_deck: readonly Axle[];
  /** Which wheels a touch puts on a pad. */
  readonly side: Side;
  readonly text: string;
  readonly unit: string;
  readonly readings: readonly TakenReading[];
  /** An earlier reading that the latest one contradicts: shall it be set aside? */
  readonly doubted: string | null;
}

export const newVisit: Visit = {
  at: null,
  form: "single_deck",
  one_pad: false,
  side: "both",
  ...stopsOf(false)[0]!,
  seats_empty: [],
  text: "",
  unit: "kg",
  readings: [],
  doubted: null,
};

/** A visit as it was kept, from before a field was added too. */
export function openVisit(kept: Partial<Visit>): Visit {
  const readings = (kept.readings ?? []).map((one) => ({
    ...one,
    differs: { ...NOTHING, ...((one as Partial<TakenReading>).differs ?? {}) },
  }));
  return { ...newVisit, ...kept, readings };
}

const NOTHING: Differs = { uncoupled: false, seats_empty: [] };

/** An axle touched: it rolls on or off the deck; both axles of a rear pair together are the rear. */
export function touch(visit: Visit, axle: Axle): Visit {
  if (visit.form === "pads") return onPad(visit, axle);
  const on = new Set(visit.on_deck);
  const other = axle === "rear_1" ? "rear_2" : axle === "rear_2" ? "rear_1" : null;
  if (other && on.delete("rear")) on.add(other);
  else if (!on.delete(axle)) {
    if (other && on.delete(other)) on.add("rear");
    else on.add(axle);
  }
  return { ...visit, on_deck: [...on].sort(), doubted: null };
}

/** With pads an axle comes and goes with the wheels of the side that is chosen. */
function onPad(visit: Visit, axle: Axle): Visit {
  const rest = visit.on_deck.filter((one) => axleOf(one) !== axle);
  const added = rest.length === visit.on_deck.length ? [wheelOf(axle, visit.side)] : [];
  return { ...visit, on_deck: [...rest, ...added].sort(), doubted: null };
}

/** A usual stop chosen at once. */
export function choose(visit: Visit, there: Stop): Visit {
  return { ...visit, ...standing(there), doubted: null };
}

/** Both wheels of what stands on the pads, or those of one side. */
export function chooseSide(visit: Visit, side: Side): Visit {
  return { ...visit, side, on_deck: onSide(visit.on_deck, side), doubted: null };
}

/** The scale has another form: the next of its usual stops without a figure stands on it. */
export function layOut(visit: Visit, layout: Partial<Layout>, towing: boolean): Visit {
  const next = { ...visit, ...layout, doubted: null };
  return next.form === visit.form
    ? next
    : { ...next, ...standing(nextStop(visit.readings, towing, next.form)) };
}

function standing({ on_deck, uncoupled }: Stop): Stop & Pick<Visit, "side"> {
  return { on_deck, uncoupled, side: sideOf(on_deck) };
}

/** Something is different now: a person is out, or the trailer is off; or it is as before again. */
export function differ(visit: Visit, what: Partial<Differs>): Visit {
  return { ...visit, ...what, doubted: null };
}

export interface Figure {
  readonly id: string;
  readonly value_kg: number;
  readonly typed: readonly [digits: string, unit: string];
}

export interface TakenAt {
  readonly at: string;
  readonly towing: boolean;
  /** The bridge's interval where it is known. */
  readonly interval_kg: number | null;
}

/** A figure taken: it joins the list, and the next stop in the usual order stands on the deck. */
export function take(visit: Visit, figure: Figure, { at, towing, interval_kg }: TakenAt): Visit {
  const { on_deck, uncoupled, seats_empty } = visit;
  const reading = { ...figure, on_deck, struck_out: null, differs: { uncoupled, seats_empty } };
  const readings = [...visit.readings, reading];
  const step_kg = interval_kg ?? guessedInterval(readings);
  const doubted = contradicted(visit.readings, reading, step_kg)?.id ?? null;
  return {
    ...visit,
    at: visit.at ?? at,
    text: "",
    readings,
    doubted,
    ...standing(nextStop(readings, towing, visit.form)),
  };
}

/** The latest earlier reading of the same stop that is more than two intervals away; both count until a person says. */
function contradicted(
  earlier: readonly TakenReading[],
  reading: TakenReading,
  interval_kg: number,
): TakenReading | undefined {
  const last = earlier.filter((one) => !one.struck_out && same(one, reading)).at(-1);
  return last && Math.abs(last.value_kg - reading.value_kg) > 2 * interval_kg + 1e-6 ? last : undefined;
}

/** Set aside by a person, with a reason, so that the same stop can be read again; or counted again with null. */
export function strikeOut(visit: Visit, id: string, reason: string | null, towing: boolean): Visit {
  const readings = visit.readings.map((one) => (one.id === id ? { ...one, struck_out: reason } : one));
  const again = reason === null ? readings.find((one) => one.id === id) : undefined;
  const next = again ? stop(again.on_deck, again.differs.uncoupled) : nextStop(readings, towing, visit.form);
  return { ...visit, readings, doubted: null, ...standing(next) };
}

/** A figure mistyped on this visit is taken off again before anything is saved. */
export function takeBack(visit: Visit, id: string): Visit {
  const gone = visit.readings.find((one) => one.id === id);
  const readings = visit.readings.filter((one) => one.id !== id);
  if (!gone) return visit;
  const [text, unit] = gone.typed;
  const there = standing(stop(gone.on_deck, gone.differs.uncoupled));
  return { ...visit, readings, ...gone.differs, ...there, text, unit, doubted: null };
}

/** The earlier reading of the same axles in the same state that this one repeats. */
export function repeatOf(readings: readonly TakenReading[], reading: TakenReading): string | null {
  const first = readings.find((one) => one.id !== reading.id && same(one, reading));
  return first && readings.indexOf(first) < readings.indexOf(reading) ? first.id : null;
}

/** The first usual stop that has no figure yet; nothing once all have one. */
export function nextStop(
  readings: readonly TakenReading[],
  towing: boolean,
  form: Layout["form"] = "single_deck",
): Stop {
  const done = ({ on_deck, uncoupled }: Stop) =>
    readings.some(
      (one) => !one.struck_out && one.differs.uncoupled === uncoupled && sameMembers(one.on_deck, on_deck),
    );
  return stopsOf(towing, form).find((one) => !done(one)) ?? stop([]);
}

/** Whether two stops are the same one. */
export function isStop(visit: Visit, { on_deck, uncoupled }: Stop): boolean {
  return visit.uncoupled === uncoupled && sameMembers(visit.on_deck, on_deck);
}

function same(a: TakenReading, b: TakenReading): boolean {
  return (
    sameMembers(a.on_deck, b.on_deck) &&
    a.differs.uncoupled === b.differs.uncoupled &&
    sameMembers(a.differs.seats_empty, b.differs.seats_empty)
  );
}

function sameMembers(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((one) => b.includes(one));
}
