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
      for (const other of seen.near(box)) {
        if (answered.has(`${row.id} ${other.id}`) || !like(other, row)) continue;
        pairs.push({ first_id: other.id, second_id: row.id });
        break;
      }
      seen.add(row, box);
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

  add(row: Row, { at, km, litres }: Box): void {
    const one = { n: this.#count, row };
    this.#count += 1;
    this.#any.add(at, litres, one);
    if (row.kind === "fill" && km === null) this.#blank.add(at, litres, one);
    if (km !== null) this.#km.add(km, litres, one);
  }

  /** All that may be alike, the latest first. */
  near({ at, km, litres }: Box): Iterable<Row> {
    if (km === null) return latestFirst(this.#any.near(at, litres));
    return latestFirst([...this.#blank.near(at, litres), ...this.#km.near(km, litres)]);
  }
}

interface Numbered {
  readonly n: number;
  readonly row: Row;
}

/** By place, then by litres: many entries at one place are as quickly compared as few. */
class Boxes {
  readonly #boxes = new Map<number, Map<number, Numbered[]>>();

  add(place: number, litres: number, one: Numbered): void {
    const there = this.#boxes.get(place) ?? new Map<number, Numbered[]>();
    this.#boxes.set(place, there);
    const list = there.get(litres);
    if (list) list.push(one);
    else there.set(litres, [one]);
  }

  near(place: number, litres: number): Numbered[][] {
    const found: Numbered[][] = [];
    if (this.#boxes.size === 0) return found;
    for (let other = place - 1; other <= place + 1; other++) {
      const there = this.#boxes.get(other);
      if (!there) continue;
      for (let amount = litres - 1; amount <= litres + 1; amount++) {
        const list = there.get(amount);
        if (list) found.push(list);
      }
    }
    return found;
  }
}

/** Lists that each rise, from their ends, as far as somebody asks. */
function* latestFirst(lists: readonly Numbered[][]): Generator<Row> {
  const left = lists.map((list) => list.length);
  for (;;) {
    let [best, from]: [Numbered | null, number] = [null, -1];
    for (const [k, list] of lists.entries()) {
      const one = list[left[k]! - 1];
      if (one && (!best || one.n > best.n)) [best, from] = [one, k];
    }
    if (!best) return;
    left[from] = left[from]! - 1;
    yield best.row;
  }
}

/** By time, by odometer where a fill has one, and by litres. */
interface Box {
  readonly at: number;
  readonly km: number | null;
  readonly litres: number;
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
  const at = Math.floor(seconds(body.at) / (kind === "fill" ? FILL_S : OTHER_S));
  return { at, km, litres: litresBox(amountsOf(body)[0]!) };
}

/** Amounts that are close lie in one box or in neighbours: equal steps up to where the share begins, then equal ratios. */
function litresBox(litres_l: number): number {
  const bend = LITRES / LITRES_SHARE;
  const along = litres_l > bend ? bend * (1 + Math.log(litres_l / bend)) : litres_l;
  return Math.floor(along / (LITRES * (1 + 2 * LITRES_SHARE)));
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
