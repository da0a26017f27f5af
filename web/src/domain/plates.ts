/** Which ratings are in force: a later plate replaces only what it states; of several things the least counts. */
import type { Row } from "./book";

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

/** One limit in force: `limit_kg` is null where no plate states it. */
export interface Rating {
  readonly rating: string;
  readonly limit_kg: number | null;
  readonly plate_id: string | null;
}

interface Stated {
  readonly rating: string;
  readonly limit_kg: number;
  readonly plate_id: string;
}

export interface RatingsOn {
  readonly plates: readonly Row[];
  readonly day: string;
  /** Ids of planned plates that the what-if counts. */
  readonly planned?: readonly string[];
  /** The trailer that is on: a plate of another does not count. */
  readonly trailer_id?: string | null;
}

/** The ratings in force on a day (`YYYY-MM-DD`); planned plates only where their id is in `planned`. */
export function ratingsOn({ plates, day, planned = [], trailer_id = null }: RatingsOn): Rating[] {
  const stated = new Map<string, Stated>();
  for (const plate of [...plates].sort(byDate)) {
    const body = plate.body;
    if ((body.date_from ?? "") > day) continue;
    if (body.trailer_id != null && body.trailer_id !== trailer_id) continue;
    if (body.standing === "planned" && !planned.includes(plate.id)) continue;
    for (const [rating, name] of Object.entries(FIELDS)) {
      if (typeof body[name] !== "number") continue;
      const key = `${body.of}|${body.trailer_id ?? ""}|${rating}`;
      stated.set(key, { rating, limit_kg: body[name], plate_id: plate.id });
    }
  }
  return Object.keys(FIELDS).map((rating) => least(rating, [...stated.values()]));
}

function least(rating: string, stated: readonly Stated[]): Rating {
  const binding = stated
    .filter((one) => one.rating === rating)
    .sort((a, b) => a.limit_kg - b.limit_kg || (a.plate_id < b.plate_id ? -1 : 1));
  const first = binding[0];
  return { rating, limit_kg: first?.limit_kg ?? null, plate_id: first?.plate_id ?? null };
}

function byDate(a: Row, b: Row): number {
  const [first, second] = [a.body.date_from ?? "", b.body.date_from ?? ""];
  if (first !== second) return first < second ? -1 : 1;
  return (a.order ?? 0) - (b.order ?? 0) || (a.id < b.id ? -1 : 1);
}
