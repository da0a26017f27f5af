/** Which ratings are in force: a later plate replaces only what it states; of several things the least counts. */
import type { Body, Book, Row } from "./book";
import { Unknown } from "./errors";
import { fitted } from "./tyres";

/** The rating's row of `statics` -> the field of a plate that states it. */
export const FIELDS: Readonly<Record<string, string>> = {
  front: "front_axle_kg",
  rear: "rear_axle_kg",
  gross: "gross_kg",
  combination: "combination_kg",
  trailer: "trailer_kg",
  trailer_axles: "trailer_axles_kg",
  coupling: "coupling_kg",
  roof: "roof_kg",
};

/** Where a plate of tyres says that they are -> the ratings that they bind. */
export const TYRE_ROWS: Readonly<Record<string, readonly string[]>> = {
  front: ["front"],
  rear: ["rear"],
  both: ["front", "rear"],
  trailer: ["trailer_axles"],
};

/**
 * One limit in force: `limit_kg` is null where no plate states it. `also` holds every plate that binds it, the one in
 * force included, with its kg, least first.
 */
export interface Rating {
  readonly rating: string;
  readonly limit_kg: number | null;
  readonly plate_id: string | null;
  readonly also: readonly (readonly [plate_id: string, kg: number])[];
}

/** One rating before and after a plate; `stated_kg` is what the plate itself says of it. */
export interface Change {
  readonly rating: string;
  readonly before: Rating;
  readonly after: Rating;
  readonly stated_kg: number | null;
  readonly changed: boolean;
}

/** How many axles share a rating; 1 unless said. */
export type AxleCounts = Readonly<Record<string, number>>;

interface Asked {
  readonly plates: readonly Row[];
  /** A trailer's plate counts with that trailer alone. */
  readonly trailer_id?: string | null;
  readonly axles?: AxleCounts | null;
}

export interface RatingsOn extends Asked {
  readonly day: string;
  /** Ids of planned plates that the what-if counts, whatever their date, and then as the latest. */
  readonly planned?: readonly string[];
}

/** The ratings in force on a day (`YYYY-MM-DD`); planned plates only where their id is in `planned`. */
export function ratingsOn({ plates, day, planned = [], trailer_id, axles }: RatingsOn): Rating[] {
  const counting = inOrder(plates, planned).filter((row) => counts(row, planned, trailer_id));
  const then = counting.filter((row) => planned.includes(row.id) || dayOf(row) <= day);
  return ratings(then, axles ?? {});
}

export interface RatingsOf {
  readonly book: Book;
  readonly day: string;
  readonly planned?: readonly string[];
  readonly trailer_id?: string | null;
}

/** The ratings in force of an opened book on a day, with the axles that its vehicle and trailer have. */
export function ratingsOf({ book, day, planned = [], trailer_id = null }: RatingsOf): Rating[] {
  const axles = axleCounts({ book, trailer_id });
  return ratingsOn({ plates: book.plates, day, planned, trailer_id, axles });
}

export interface ChangesBy extends Asked {
  readonly plate_id: string;
  /** For a planned plate: the day whose ratings it is laid over; all that is in force unless given. */
  readonly day?: string | null;
}

/** What one plate changed and what it did not: the ratings without it and with it. */
export function changesBy({ plates, plate_id, day, trailer_id, axles }: ChangesBy): Change[] {
  const plate = plates.find((row) => row.id === plate_id);
  if (!plate)
    throw new Unknown(
      "plate_id",
      plate_id,
      plates.map((row) => row.id),
    );
  const planned = isPlanned(plate) ? [plate_id] : [];
  const trailer = trailer_id || plate.body.trailer_id;
  const order = inOrder(plates, planned);
  let earlier = order.slice(0, order.indexOf(plate)).filter((row) => counts(row, [], trailer));
  if (isPlanned(plate) && day != null) earlier = earlier.filter((row) => dayOf(row) <= day);
  const shared = axles ?? {};
  const stated = statedBy({ plate: plate.body, axles: shared });
  const after = ratings([...earlier, plate], shared);
  return ratings(earlier, shared).map((before, k) => ({
    rating: before.rating,
    before,
    after: after[k]!,
    stated_kg: stated[before.rating] ?? null,
    changed: before.limit_kg !== after[k]!.limit_kg,
  }));
}

export interface StatedBy {
  readonly plate: Body;
  readonly axles?: AxleCounts | null;
}

/** What a plate's body states, rating -> kg; a plate of tyres also what they carry, and the least counts. */
export function statedBy({ plate, axles }: StatedBy): Record<string, number> {
  const out: Record<string, number> = {};
  for (const [rating, name] of Object.entries(FIELDS))
    if (typeof plate[name] === "number") out[rating] = plate[name];
  if (plate.of !== "tyres") return out;
  const { axle_kg } = fitted(plate);
  if (axle_kg === null) return out;
  const where: string = plate.tyre_axle || (plate.trailer_id ? "trailer" : "both");
  for (const rating of TYRE_ROWS[where] ?? []) {
    const carried = axle_kg * (axles?.[rating] ?? 1);
    out[rating] = Math.min(out[rating] ?? carried, carried);
  }
  return out;
}

export interface CountsOf {
  readonly book: Book;
  readonly trailer_id?: string | null;
}

/** How many axles share the rear axle's rating and a trailer's; 1 where not known, the stricter. */
export function axleCounts({ book, trailer_id }: CountsOf): Record<string, number> {
  const trailer = book.trailers.find((row) => row.id === trailer_id)?.body ?? {};
  const pair = ["load_sharing_pair", "independent_pair"].includes(book.vehicle?.body.rear_axles);
  return { rear: pair ? 2 : 1, trailer_axles: trailer.axles || 1 };
}

/** By day and then by entering; what a what-if counts comes last. */
function inOrder(plates: readonly Row[], planned: readonly string[]): Row[] {
  const late = (row: Row) => Number(planned.includes(row.id));
  return [...plates].sort((a, b) => late(a) - late(b) || byDate(a, b));
}

function byDate(a: Row, b: Row): number {
  const [first, second] = [dayOf(a), dayOf(b)];
  if (first !== second) return first < second ? -1 : 1;
  return (a.order ?? 0) - (b.order ?? 0) || (a.id < b.id ? -1 : 1);
}

function dayOf(plate: Row): string {
  return plate.body.date_from ?? "";
}

function isPlanned(plate: Row): boolean {
  return plate.body.standing === "planned";
}

function counts(plate: Row, planned: readonly string[], trailer_id: string | null | undefined): boolean {
  const own = plate.body.trailer_id ?? null;
  return (!isPlanned(plate) || planned.includes(plate.id)) && (own === null || own === trailer_id);
}

interface Stated {
  readonly rating: string;
  readonly limit_kg: number;
  readonly plate_id: string;
}

/** The least of what the latest plates of each thing state; `plates` are in order. */
function ratings(plates: readonly Row[], axles: AxleCounts): Rating[] {
  const stated = new Map<string, Stated>();
  for (const { id, body } of plates)
    for (const [rating, limit_kg] of Object.entries(statedBy({ plate: body, axles })))
      stated.set(`${body.of}|${body.trailer_id ?? ""}|${rating}`, { rating, limit_kg, plate_id: id });
  return Object.keys(FIELDS).map((rating) => least(rating, [...stated.values()]));
}

function least(rating: string, stated: readonly Stated[]): Rating {
  const binding = stated
    .filter((one) => one.rating === rating)
    .sort((a, b) => a.limit_kg - b.limit_kg || (a.plate_id < b.plate_id ? -1 : 1));
  const also = binding.map((one) => [one.plate_id, one.limit_kg] as const);
  return { rating, limit_kg: also[0]?.[1] ?? null, plate_id: also[0]?.[0] ?? null, also };
}
