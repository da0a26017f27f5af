/** A visit to a bridge while it goes on: which axles stand on the deck, which figures were taken. Pure. */
import { words } from "@/ui/text/weigh";

export type Axle = "front" | "rear";

export interface TakenReading {
  readonly id: string;
  readonly on_deck: readonly Axle[];
  readonly value_kg: number;
  readonly typed: readonly [digits: string, unit: string];
  readonly struck_out: string | null;
}

export interface Visit {
  readonly at: string | null;
  readonly on_deck: readonly Axle[];
  readonly text: string;
  readonly unit: string;
  readonly readings: readonly TakenReading[];
}

/** Drive on forward, straight: front, whole, rear (common practice, no source). */
const ORDER: readonly (readonly Axle[])[] = [["front"], ["front", "rear"], ["rear"]];

export const newVisit: Visit = {
  at: null,
  on_deck: ORDER[0] as readonly Axle[],
  text: "",
  unit: "kg",
  readings: [],
};

/** An axle touched: it rolls on or off the deck. */
export function touch(visit: Visit, axle: Axle): Visit {
  const on = visit.on_deck.includes(axle)
    ? visit.on_deck.filter((one) => one !== axle)
    : [...visit.on_deck, axle].sort();
  return { ...visit, on_deck: on };
}

/** A figure taken: it joins the list, and the next stop in the usual order stands on the deck. */
export function take(visit: Visit, reading: TakenReading, at: string): Visit {
  const readings = [...visit.readings, reading];
  return { ...visit, at: visit.at ?? at, on_deck: nextStop(readings), text: "", readings };
}

/** Set aside by a person, with a reason, so that the same stop can be read again; or counted again with null. */
export function strikeOut(visit: Visit, id: string, reason: string | null): Visit {
  const readings = visit.readings.map((one) => (one.id === id ? { ...one, struck_out: reason } : one));
  const again = reason === null ? undefined : readings.find((one) => one.id === id)?.on_deck;
  return { ...visit, readings, on_deck: again ?? nextStop(readings) };
}

/** A figure mistyped on this visit is taken off again before anything is saved. */
export function takeBack(visit: Visit, id: string): Visit {
  const gone = visit.readings.find((one) => one.id === id);
  const readings = visit.readings.filter((one) => one.id !== id);
  if (!gone) return visit;
  const [text, unit] = gone.typed;
  return { ...visit, readings, on_deck: gone.on_deck, text, unit };
}

/** The earlier reading of the same axles that this one repeats. */
export function repeatOf(readings: readonly TakenReading[], reading: TakenReading): string | null {
  const first = readings.find((one) => one.id !== reading.id && same(one.on_deck, reading.on_deck));
  return first && readings.indexOf(first) < readings.indexOf(reading) ? first.id : null;
}

function nextStop(readings: readonly TakenReading[]): readonly Axle[] {
  const open = ORDER.find((stop) => !readings.some((one) => !one.struck_out && same(one.on_deck, stop)));
  return open ?? [];
}

function same(a: readonly Axle[], b: readonly Axle[]): boolean {
  return a.length === b.length && a.every((one) => b.includes(one));
}

/** The stop's name: what stood on the deck. */
export function stopName(on_deck: readonly Axle[]): string {
  if (on_deck.length === 2) return words.stop.both;
  return on_deck[0] ? words.stop[on_deck[0]] : words.stop.none;
}
