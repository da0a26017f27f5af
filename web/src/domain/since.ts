/** Since last time: what came and went between two weighings, and what the bridge says beside it. */
import { fixedSums } from "./agreement";
import { hitchOffsetKg, ROWS } from "./axles";
import type { Book } from "./book";
import { gainU, OWN_REPEATS, ownVariance } from "./bridge";
import { deckSums } from "./deck";
import { Duplicate, NotFixed } from "./errors";
import { type Component, terms } from "./posterior";
import { design, type Part } from "./statics";
import { measuredOf, type Visit } from "./visit";
import { type PlannedDay, plannedDay } from "./weighed";
import { axleKey, type Reading, readingCovariance } from "./weighing";

/** One thing that came, went or changed: kg per row, later minus earlier, each with one standard uncertainty. */
export interface Moved {
  readonly subject: "base" | "item" | "person" | "tank" | "trailer";
  readonly how: "new" | "removed" | "aboard" | "away" | "edited" | "moved" | "level";
  readonly record_id: string;
  readonly author: string | null;
  readonly kg: readonly number[];
  readonly u_kg: readonly number[];
}

/** Between two weighings, row by row: the lines, their sum, the change on the bridge, what neither explains. */
export interface Since {
  readonly earlier_id: string;
  readonly later_id: string;
  readonly rows: readonly string[];
  readonly lines: readonly Moved[];
  readonly listed_kg: readonly number[];
  readonly listed_u_kg: readonly number[];
  readonly weighed_kg: readonly number[];
  readonly weighed_u_kg: readonly number[];
  readonly unexplained_kg: readonly number[];
  readonly unexplained_u_kg: readonly number[];
}

export interface SinceOf {
  readonly book: Book;
  readonly weighing_id: string;
  readonly earlier_id?: string | null;
}

/** What changed from the weighing before (or from another one) to this one; null where there is nothing to compare. */
export function since({ book, weighing_id, earlier_id = null }: SinceOf): Since | null {
  const later = plannedDay({ book, weighing_id });
  const before_id = earlier_id || beforeOf(book, weighing_id);
  if (before_id === weighing_id) throw new Duplicate("earlier_id", before_id, "Name another weighing");
  const earlier = before_id === null ? null : plannedDay({ book, weighing_id: before_id });
  if (before_id === null || !earlier || !later) return null;
  const rows = ROWS.filter((row) => measuredOf(earlier.visit, row) && measuredOf(later.visit, row));
  if (rows.length === 0 || !earlier.visit.agree || !later.visit.agree) return null;
  const { lines, listed_kg, listed_u_kg } = listedOf(book, [earlier, later], rows);
  const change = rows.map((row) => changeKg({ earlier: earlier.visit, later: later.visit, row }));
  return {
    earlier_id: before_id,
    later_id: weighing_id,
    rows,
    lines,
    listed_kg,
    listed_u_kg,
    weighed_kg: change.map(([kg]) => kg),
    weighed_u_kg: change.map(([, u]) => u),
    unexplained_kg: change.map(([kg], k) => kg - listed_kg[k]!),
    unexplained_u_kg: change.map(([, u], k) => Math.sqrt(u ** 2 + listed_u_kg[k]! ** 2)),
  };
}

export interface ChangeOf {
  readonly earlier: Visit;
  readonly later: Visit;
  readonly row: string;
}

/** Change of a row that both visits fix, kg, and its u: what the two bridges share cancels. */
export function changeKg({ earlier, later, row }: ChangeOf): [number, number] {
  const [first, last] = [measuredOf(earlier, row), measuredOf(later, row)];
  if (!first || !last) throw new NotFixed("row", row);
  const weights = weightsOf(later, row);
  const across = weightsOf(earlier, row).reduce(
    (sum, [a, w]) => weights.reduce((all, [b, v]) => all + w * v * sharedOf(earlier, a, later, b), sum),
    0,
  );
  const variance = first.u_kg ** 2 + last.u_kg ** 2 - 2 * across;
  return [last.value_kg - first.value_kg, Math.sqrt(Math.max(variance, 0))];
}

function beforeOf(book: Book, weighing_id: string): string | null {
  const at = book.weighings.findIndex((one) => one.id === weighing_id);
  return book.weighings[at - 1]?.id ?? null;
}

function sharedOf(one: Visit, a: Reading, other: Visit, b: Reading): number {
  if (one.bridge.key !== other.bridge.key || (a.deck ?? "") !== (b.deck ?? "")) return 0;
  const gain = gainU({ bridge: one.bridge }) * a.value_kg * gainU({ bridge: other.bridge }) * b.value_kg;
  if (axleKey(a) !== axleKey(b)) return gain;
  const own = ({ bridge }: Visit, { value_kg }: Reading) =>
    ownVariance({ bridge, value_kg }) * (bridge.own_repeats ?? OWN_REPEATS);
  return gain + Math.sqrt(own(one, a) * own(other, b));
}

/** Share of each reading in the load of a row: the fit is linear, so that it is what a reading of 1 alone gives. */
function weightsOf({ readings, bridge, setup, deck }: Visit, row: string): (readonly [Reading, number])[] {
  const sums = deckSums({ readings, deck });
  const used = readings.filter((reading) => sums.used.includes(reading.id));
  const own = readingCovariance({ readings: used, bridge, setup });
  const covariance = sums.extra_kg2.map((extra, i) =>
    sums.extra_kg2.map((_, j) => (own[i]?.[j] ?? 0) + (i === j ? extra : 0)),
  );
  const wanted = { [row]: sums.wanted[row]! };
  return used.map((reading, i) => {
    const values_kg = sums.extra_kg2.map((_, j) => Number(j === i));
    return [reading, fixedSums({ sums: sums.rows, values_kg, covariance, wanted }).mean_kg[0]!] as const;
  });
}

// --- what the records say -----------------------------------------------------------------------------------

type Days = readonly [PlannedDay, PlannedDay];

/** A source of error with its effect per row; equal names are the same error. */
interface Effect {
  readonly name: string;
  readonly u_kg: readonly number[];
}

/** A part with what it is and the record that it belongs to. */
interface Thing {
  readonly subject: Moved["subject"];
  readonly record_id: string;
  readonly part: Part;
}

/** One line per record, their sum, and its u. */
function listedOf(book: Book, days: Days, rows: readonly string[]) {
  const [before, after] = [thingsOf(days[0]), thingsOf(days[1])];
  const groups = new Map<string, { of: Thing; names: string[] }>();
  for (const [name, of] of [...after, ...[...before].filter(([name]) => !after.has(name))]) {
    const key = `${of.subject} ${of.record_id}`;
    const group = groups.get(key);
    if (group) group.names.push(name);
    else groups.set(key, { of, names: [name] });
  }
  const effects: Effect[] = [];
  const lines: Moved[] = [];
  let listed_kg: readonly number[] = rows.map(() => 0);
  for (const { of, names } of groups.values()) {
    const { subject, record_id } = of;
    const found = names.map((name) =>
      differenceOf([before.get(name)?.part ?? null, after.get(name)?.part ?? null], days, rows),
    );
    const kg = found.reduce<readonly number[]>(
      (sum, one) => sum.map((value, k) => value + one.kg[k]!),
      hitchOf(record_id, days, rows),
    );
    const errors = found.flatMap((one) => one.effects);
    const u_kg = spreadOf(errors, rows);
    if (kg.every((value) => value === 0) && u_kg.every((value) => value === 0)) continue;
    const there = (side: ReadonlyMap<string, Thing>) => names.flatMap((name) => side.get(name) ?? []);
    const how = howOf([there(before), there(after)], of, days);
    const author = ["new", "removed", "edited"].includes(how) ? authorOf(book, days[1], record_id) : null;
    lines.push({ subject, how, record_id, author, kg, u_kg });
    effects.push(...errors);
    listed_kg = listed_kg.map((value, k) => value + kg[k]!);
  }
  return { lines, listed_kg, listed_u_kg: spreadOf(effects, rows) };
}

/** What a trailer's levelling hitch moves between the axles, later minus earlier; nothing for other records. */
function hitchOf(trailer_id: string, days: Days, rows: readonly string[]): number[] {
  const [earlier, later] = days.map(({ geometry }) =>
    rows.map((row) => (geometry.trailer?.id === trailer_id ? hitchOffsetKg({ row, geometry }) : 0)),
  ) as [number[], number[]];
  return later.map((value, k) => value - earlier[k]!);
}

/** Each part by a name that stays with the thing, whatever seat a person takes. */
function thingsOf({ plan, state }: PlannedDay): Map<string, Thing> {
  const who = new Map(state.seats.map((one) => [`${one.seat_id}:occupant`, one.person_id ?? one.seat_id]));
  const out = new Map<string, Thing>();
  for (const part of [...plan.lasting, ...plan.passing]) {
    const { id, on = "vehicle" } = part;
    const person = who.get(id);
    const name = person === undefined ? id : `person:${person}`;
    if (on !== "vehicle") out.set(name, { subject: "trailer", record_id: on, part });
    else if (person !== undefined)
      out.set(name, { subject: "person", record_id: person, part: { ...part, id: name } });
    else if (id.startsWith("base_")) out.set(name, { subject: "base", record_id: "", part });
    else if (id.includes(":"))
      out.set(name, { subject: "tank", record_id: id.slice(0, id.lastIndexOf(":")), part });
    else out.set(name, { subject: "item", record_id: id, part });
  }
  return out;
}

/** Later minus earlier of one part: kg per row, and the errors in it. */
function differenceOf(pair: readonly [Part | null, Part | null], days: Days, rows: readonly string[]) {
  const [one, other] = pair;
  const edited = one?.mass_kg !== other?.mass_kg || one?.mass_u_kg !== other?.mass_u_kg;
  const effects: Effect[] = [];
  let kg: readonly number[] = rows.map(() => 0);
  for (const [i, part] of pair.entries()) {
    if (part === null) continue;
    const { geometry, base_correlation } = days[i]!;
    const d = design({ parts: [part], geometry, rows });
    const [factor, side] = i === 0 ? [-1, "earlier"] : [1, "later"];
    for (const [name, prior, columns] of terms(part)) {
      const column = d[columns].map((row) => (factor as number) * row[0]!);
      kg = kg.map((value, k) => value + column[k]! * prior.mean);
      for (const [source, share] of sourcesOf(
        part,
        name,
        prior,
        side as string,
        edited ? base_correlation : 0,
      ))
        effects.push({ name: source, u_kg: column.map((value) => share * prior.u * value) });
    }
  }
  return { kg, effects };
}

/** Independent errors of unit size in one component: the same figure on both days is the same error. */
function sourcesOf(
  { id }: Part,
  name: string,
  { mean, u, article = null }: Component,
  side: string,
  base_correlation: number,
): readonly (readonly [string, number])[] {
  const own = id.endsWith(":content") ? `${side}:${name}` : `${name}~${mean}~${u}`;
  if (article !== null) return [[`article:${article}`, 1]];
  if (base_correlation && id === "base_front") return [[`${side}:base`, 1]];
  if (base_correlation && id === "base_rear")
    return [
      [`${side}:base`, base_correlation],
      [own, Math.sqrt(1 - base_correlation ** 2)],
    ];
  return [[own, 1]];
}

/** One standard uncertainty per row of a sum of effects. */
function spreadOf(effects: readonly Effect[], rows: readonly string[]): number[] {
  const found = new Map<string, readonly number[]>();
  for (const { name, u_kg } of effects) {
    const known = found.get(name);
    found.set(name, known ? known.map((value, k) => value + u_kg[k]!) : u_kg);
  }
  const vectors = [...found.values()];
  return rows.map((_, k) => Math.sqrt(vectors.reduce((sum, vector) => sum + vector[k]! ** 2, 0)));
}

function howOf(
  [was, now]: readonly [readonly Thing[], readonly Thing[]],
  { subject, record_id }: Thing,
  days: Days,
): Moved["how"] {
  if (was.length > 0 && now.length > 0) {
    if (subject === "person" && was[0]!.part.mass_kg === now[0]!.part.mass_kg) return "moved";
    return subject === "tank" ? "level" : "edited";
  }
  const other = now.length > 0 ? days[0] : days[1];
  if (subject === "person" || subject === "trailer" || other.state.items_away?.includes(record_id))
    return now.length > 0 ? "aboard" : "away";
  return now.length > 0 ? "new" : "removed";
}

/** Who made the revision that the later weighing had, else the record's last edit. */
function authorOf(book: Book, { revisions }: PlannedDay, record_id: string): string | null {
  const own = record_id || (book.vehicle?.id ?? "");
  const edits = book.edits.filter((one) => one.record_id === own);
  return (edits.findLast((one) => one.rev === revisions?.[own]) ?? edits.at(-1))?.author ?? null;
}
