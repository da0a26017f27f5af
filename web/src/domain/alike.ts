/** Entries that two phones may have made of one stop: asked about, never merged unasked. */
import type { Body, Book, Row } from "./book";
import { seconds } from "./log_rows";

/** Amounts as close as this, the greater of the two, may be one (assumed). */
export const LITRES = 1;
export const LITRES_SHARE = 0.03;
export const ODOMETER_KM = 2; // one typed from memory (assumed)
export const FILL_S = 12 * 3600; // of two fills where an odometer is blank (assumed)
export const OTHER_S = 3 * 3600; // of water and transfers by two people (assumed)

/** Two entries that may be one: `second_id` was recorded later. */
export interface Alike {
  readonly first_id: string;
  readonly second_id: string;
}

/** Pairs that nobody has answered yet; an answer strikes one of them or keeps one beside the other. */
export function alike({ book }: { readonly book: Book }): Alike[] {
  const answered = new Set(
    book.kept.flatMap(({ body }) => [`${body.of_id} ${body.other_id}`, `${body.other_id} ${body.of_id}`]),
  );
  const pairs: Alike[] = [];
  for (const rows of [book.fills, book.waters, book.transfers]) {
    const seen = new Seen();
    for (const row of [...rows].sort(byOrder)) {
      const box = boxOnce(row);
      const other = seen.near(box).find((one) => !answered.has(`${row.id} ${one.id}`) && like(one, row));
      seen.add(row, box);
      if (other) pairs.push({ first_id: other.id, second_id: row.id });
    }
  }
  return pairs;
}

/** Entries recorded so far, in boxes as wide as two that are alike may be apart: only neighbours are compared. */
class Seen {
  readonly #any = new Boxes();
  readonly #blank = new Boxes();
  readonly #km = new Boxes();
  #count = 0;

  add(row: Row, { at, km }: Box): void {
    const one = { n: this.#count, row };
    this.#count += 1;
    this.#any.add(at, one);
    if (row.kind === "fill" && km === null) this.#blank.add(at, one);
    if (km !== null) this.#km.add(km, one);
  }

  /** All that may be alike, the latest first. */
  near({ at, km }: Box): Row[] {
    const found: Numbered[] = [];
    if (km === null) this.#any.near(at, found);
    else {
      this.#blank.near(at, found);
      this.#km.near(km, found);
    }
    return found.sort((a, b) => b.n - a.n).map((one) => one.row);
  }
}

interface Numbered {
  readonly n: number;
  readonly row: Row;
}

class Boxes {
  readonly #boxes = new Map<number, Numbered[]>();

  add(box: number, one: Numbered): void {
    const there = this.#boxes.get(box);
    if (there) there.push(one);
    else this.#boxes.set(box, [one]);
  }

  near(box: number, found: Numbered[]): void {
    if (this.#boxes.size === 0) return;
    for (let other = box - 1; other <= box + 1; other++) {
      const there = this.#boxes.get(other);
      if (there) found.push(...there);
    }
  }
}

/** By time, and by odometer where a fill has one. */
interface Box {
  readonly at: number;
  readonly km: number | null;
}

const BOXES = new WeakMap<Row, Box>();

function boxOnce(row: Row): Box {
  const box = BOXES.get(row) ?? boxOf(row);
  BOXES.set(row, box);
  return box;
}

function boxOf({ kind, body }: Row): Box {
  const odometer_km: number | null = kind === "fill" ? (body.odometer_km ?? null) : null;
  const km = odometer_km === null ? null : Math.floor(odometer_km / ODOMETER_KM);
  return { at: Math.floor(seconds(body.at) / (kind === "fill" ? FILL_S : OTHER_S)), km };
}

function byOrder(a: Row, b: Row): number {
  return (a.order ?? 0) - (b.order ?? 0) || (a.id < b.id ? -1 : 1);
}

function like(first: Row, second: Row): boolean {
  const [one, other] = [first.body, second.body];
  if (about(one) !== about(other)) return false;
  const amounts = amountsOf(other);
  if (amountsOf(one).some((litres, i) => !close(litres, amounts[i]!))) return false;
  const apart_s = Math.abs(seconds(one.at) - seconds(other.at));
  if (first.kind !== "fill") return first.author !== second.author && apart_s <= OTHER_S;
  const [at, beside] = [one.odometer_km ?? null, other.odometer_km ?? null];
  return at === null || beside === null ? apart_s <= FILL_S : Math.abs(at - beside) <= ODOMETER_KM;
}

/** What must be the same: the tanks, and what was done with them. */
function about(body: Body): string {
  const lines = (body.lines ?? []).map((line: Body) => line.tank_id);
  const { tank_id, action, from_tank_id, to_tank_id, everything } = body;
  const names = [tank_id, action, from_tank_id, to_tank_id].map((one) => one ?? null);
  return JSON.stringify([[...new Set(lines)].sort(), names, Boolean(everything)]);
}

/** Litres by tank, or the one figure of an entry that has no lines. */
function amountsOf(body: Body): number[] {
  const litres = new Map<string, number>();
  for (const line of body.lines ?? [])
    litres.set(line.tank_id, (litres.get(line.tank_id) ?? 0) + line.litres_l);
  const sums = [...litres.keys()].sort().map((tank_id) => litres.get(tank_id)!);
  return sums.length > 0 ? sums : [body.litres_l || 0];
}

function close(one: number, other: number): boolean {
  return Math.abs(one - other) <= Math.max(LITRES, LITRES_SHARE * Math.max(one, other));
}
