/** Two plans of one book side by side: as it stood on two days, with what is on order or without, towing or not. */
import { type Geometry, hitchOffsetKg, ROWS } from "./axles";
import { type Book, dayOf, type Row } from "./book";
import { DomainError } from "./errors";
import { CONFIDENCE, type Verdict, verdict } from "./limits";
import { baseCorrelationOf, geometryOf, type Missing, planIn, plannedLoads, reckoned } from "./plan";
import { ratingsOf } from "./plates";
import { type Centre, centreOfGravity } from "./stability";
import { fullState, type State } from "./state";
import { design, type Loads, type Part, sign, uKg, valueKg } from "./statics";

const TOWED: readonly string[] = ["coupling", "trailer_axles"];
const STANDING = /base_(front|rear|coupling|axles)$/;

/** Which plan: as it stood at the end of a day (null: now), with what is on order too, and which trailer is on. */
export interface Version {
  readonly day?: string | null;
  readonly ordered?: boolean;
  readonly trailer_id?: string | null;
}

/** One plan in its state; without loads where there was no plan then, or none that reaches the trailer. */
export interface Side {
  readonly loads: Loads | null;
  readonly verdicts: readonly Verdict[];
  readonly centre: Centre | null;
  readonly missing: readonly Missing[];
}

/** What happened to a record: "known" is only its u, "axles" where the supports are elsewhere or of another model. */
export type How =
  | ("added" | "removed" | "fitted" | "ordered" | "coupled" | "uncoupled")
  | ("mass" | "moved" | "known" | "axles");

/** One record that differs, and what it does to each row, kg, second less first. */
export interface Difference {
  readonly record_id: string;
  readonly kind: string;
  readonly how: readonly How[];
  readonly kg: readonly number[];
  readonly was_kg: number | null;
  readonly now_kg: number | null;
  readonly was_x_m: number | null;
  readonly now_x_m: number | null;
}

/** Both plans, and the records between them, whose kg add up to the difference row by row. */
export interface TwoPlans {
  readonly rows: readonly string[];
  readonly first: Side;
  readonly second: Side;
  readonly differences: readonly Difference[];
  readonly total_kg: readonly number[];
}

export interface BookOn {
  readonly book: Book;
  readonly day: string;
}

/** The plan records of a book as they stood at the end of a day, with the log as it is. */
export function bookOn({ book, day }: BookOn): Book {
  if (!/^[\d-]{10}$/.test(day)) throw new DomainError("day", day, "a day like 2026-03-04");
  const latest = new Map(
    book.edits.filter((edit) => dayOf({ edit }) <= day).map((one) => [one.record_id, one]),
  );
  const known = new Set(book.edits.map((one) => one.record_id));
  const stood = (rows: readonly Row[], kind: string): Row[] =>
    [...rows, ...book.gone.filter((one) => one.kind === kind)]
      .flatMap((row): Row[] => {
        const edit = latest.get(row.id);
        const { rev, body } = edit ?? row;
        return body.deleted || (!edit && known.has(row.id)) ? [] : [edit ? { ...row, rev, body } : row];
      })
      .sort((a, b) => (a.order ?? 0) - (b.order ?? 0) || (a.id < b.id ? -1 : 1));
  return {
    ...book,
    vehicle: stood(book.vehicle ? [book.vehicle] : [], "vehicle")[0] ?? null,
    trailers: stood(book.trailers, "trailer"),
    plates: stood(book.plates, "plate"),
    items: stood(book.items, "item"),
    tanks: stood(book.tanks, "tank"),
    seats: stood(book.seats, "seat"),
    people: stood(book.people, "person"),
    gone: [],
  };
}

export interface TwoPlansOf {
  readonly book: Book;
  readonly first: Version;
  readonly second: Version;
  readonly today: string;
  readonly state?: State | null;
  readonly confidence?: number;
}

/** Two versions of one plan, each judged by the ratings of its day, and what lies between them. */
export function twoPlans({
  book,
  first,
  second,
  today,
  state = null,
  confidence = CONFIDENCE,
}: TwoPlansOf): TwoPlans {
  const sides = [first, second].map((one) => taken(book, one, today, state)) as [Taken, Taken];
  const towed = sides.some((one) => one.geometry?.trailer != null);
  const rows = [...ROWS, ...(towed ? TOWED : [])];
  const [one, other] = sides.map((side) => sideOf(side, confidence)) as [Side, Side];
  const told = { rows, first: one, second: other };
  if (sides.some((side) => side.geometry === null)) return { ...told, differences: [], total_kg: [] };
  const differences = differencesOf(sides[0], sides[1], rows);
  const total_kg = rows.map((_, k) => differences.reduce((sum, line) => sum + line.kg[k]!, 0));
  return { ...told, differences, total_kg };
}

// --- one side -------------------------------------------------------------------------------------------------------

/** A part with the record that it belongs to. */
interface Thing {
  readonly kind: string;
  readonly record_id: string;
  readonly part: Part;
}

/** One version: its book and day, and where the plan reaches its state, its axles and its things by name. */
interface Taken {
  readonly book: Book;
  readonly day: string;
  readonly geometry: Geometry | null;
  readonly loads: Loads | null;
  readonly missing: readonly Missing[];
  readonly things: ReadonlyMap<string, Thing>;
}

function taken(book: Book, version: Version, today: string, common: State | null): Taken {
  const { day = null, ordered = false, trailer_id = null } = version;
  const stood = day === null ? book : bookOn({ book, day });
  const trailers_on = stood.trailers.filter((one) => one.id === trailer_id).map((one) => one.id);
  const state = { ...(common ?? fullState({ book: stood })), trailers_on };
  const told = { book: stood, day: day ?? today };
  const lost = trailer_id !== null && trailers_on.length === 0;
  if (lost || !reckoned({ book: stood, state }))
    return { ...told, geometry: null, loads: null, missing: [], things: new Map() };
  const plan = planIn({ book: stood, state, ordered });
  const geometry = geometryOf({ book: stood, state });
  const loads = plannedLoads({ book: stood, plan, state });
  const things = thingsOf(stood, state, [...plan.lasting, ...plan.passing]);
  return { ...told, geometry, loads, missing: plan.missing, things };
}

/** Each part by a name that stays with the thing, whatever seat a person takes. */
function thingsOf(book: Book, state: State, parts: readonly Part[]): Map<string, Thing> {
  const who = new Map(state.seats.map((one) => [`${one.seat_id}:occupant`, one]));
  const trailers = new Set(book.trailers.map((one) => one.id));
  return new Map(
    parts.map((part): [string, Thing] => {
      const cut = part.id.indexOf(":");
      const record_id = cut < 0 ? part.id : part.id.slice(0, cut);
      const seated = who.get(part.id);
      if (seated) {
        const person = seated.person_id || null;
        const id = person ?? record_id;
        return [`occupant:${id}`, { kind: person ? "person" : "seat", record_id: id, part }];
      }
      if (part.id.startsWith("base_"))
        return [part.id, { kind: "vehicle", record_id: book.vehicle?.id ?? "", part }];
      if (cut < 0) return [part.id, { kind: "item", record_id, part }];
      return [part.id, { kind: trailers.has(record_id) ? "trailer" : "tank", record_id, part }];
    }),
  );
}

function sideOf({ book, day, geometry, loads, missing, things }: Taken, confidence: number): Side {
  if (loads === null) return { loads: null, verdicts: [], centre: null, missing };
  const verdicts = ratingsOf({ book, day, trailer_id: geometry?.trailer?.id ?? null })
    .filter(({ rating }) => loads.rows.includes(rating))
    .map(({ rating, limit_kg }) => {
      const [value_kg, u_kg] = [valueKg(loads, rating), uKg(loads, rating)];
      return verdict({ rating, value_kg, u_kg, limit_kg, confidence });
    });
  const parts = [...things.values()].map((one) => one.part);
  const centre = centreOfGravity({ parts, base_correlation: baseCorrelationOf({ book }) });
  return { loads, verdicts, centre, missing };
}

// --- what lies between ----------------------------------------------------------------------------------------------

/** One line per record that differs, in the order of the second plan and then of the first. */
function differencesOf(first: Taken, second: Taken, rows: readonly string[]): Difference[] {
  const moved = supportsMoved(first, second, rows);
  const groups = new Map<string, { kind: string; record_id: string; names: string[] }>();
  for (const [name, { kind, record_id }] of new Map([...second.things, ...first.things])) {
    const key = `${kind} ${record_id}`;
    groups.set(key, groups.get(key) ?? { kind, record_id, names: [] });
    groups.get(key)!.names.push(name);
  }
  const [before, after] = [carried(first, second, rows), carried(second, second, rows)];
  return [...groups.values()].flatMap(({ kind, record_id, names }): Difference[] => {
    const of = ({ things }: Taken): Named =>
      new Map(names.flatMap((name) => (things.has(name) ? [[name, things.get(name)!.part]] : [])));
    const [was, now] = [of(first), of(second)];
    const turned = moved.get(record_id) ?? rows.map(() => 0);
    const sum = (side: Named, kg: typeof before, k: number) =>
      [...side.keys()].reduce((total, name) => total + kg.get(name)![k]!, 0);
    const kg = rows.map((_, k) => turned[k]! + sum(now, after, k) - sum(was, before, k));
    const changed = howChanged(was, now);
    const how = changed.length > 0 ? changed : howCame(record_id, now, first, second);
    const axles = was.size > 0 && now.size > 0 && turned.some((one) => one !== 0);
    const words: How[] = [...how, ...(axles ? ["axles" as const] : [])];
    if (words.length === 0 && kg.every((one) => one === 0)) return [];
    const stood = { was_kg: massOf(was), now_kg: massOf(now), was_x_m: placeOf(was), now_x_m: placeOf(now) };
    return [{ record_id, kind, how: words.length > 0 ? words : ["moved"], kg, ...stood }];
  });
}

type Named = ReadonlyMap<string, Part>;

/** What each thing carries to each row at the axles of `at`, or where those do not reach it at its own. */
function carried(side: Taken, at: Taken, rows: readonly string[]): Map<string, number[]> {
  const reached = ["vehicle", at.geometry?.trailer?.id];
  const names = [...side.things.keys()];
  const isHere = (name: string) => reached.includes(side.things.get(name)!.part.on ?? "vehicle");
  const kg = (chosen: readonly string[], { geometry }: Taken) => {
    const parts = chosen.map((name) => side.things.get(name)!.part);
    const found = kgOf(parts, geometry, rows);
    return chosen.map((name, j): [string, number[]] => [name, found.map((row) => row[j]!)]);
  };
  return new Map([
    ...kg(names.filter(isHere), at),
    ...kg(
      names.filter((name) => !isHere(name)),
      side,
    ),
  ]);
}

/** What the axles' own change does to all that stood on the first plan, by the record that they are of. */
function supportsMoved(first: Taken, second: Taken, rows: readonly string[]): Map<string, number[]> {
  const [one, other] = [first.geometry!, second.geometry!];
  const same = one.trailer != null && one.trailer.id === other.trailer?.id;
  const middle = same ? { ...one, trailer: other.trailer! } : one;
  const parts = [...first.things.values()].map((thing) => thing.part);
  const stays = parts.filter((part) => (part.on ?? "vehicle") === "vehicle" || same);
  const out = new Map<string, number[]>();
  const add = (id: string, kg: readonly number[]) =>
    out.set(
      id,
      kg.map((value, k) => (out.get(id)?.[k] ?? 0) + value),
    );
  const carry = (geometry: Geometry) =>
    kgOf(stays, geometry, rows).map(
      (row, k) => row.reduce((sum, kg) => sum + kg, 0) + (same ? hitch(geometry, rows[k]!) : 0),
    );
  const step = (id: string, from: Geometry, to: Geometry) => {
    const [was, now] = [carry(from), carry(to)];
    add(
      id,
      now.map((kg, k) => kg - was[k]!),
    );
  };
  if (same && !alike(middle.trailer, one.trailer)) step(one.trailer!.id, one, middle);
  if (!alike({ ...other, trailer: null }, { ...middle, trailer: null }))
    step(second.book.vehicle!.id, middle, other);
  if (!same)
    for (const [geometry, factor] of [
      [one, -1],
      [other, 1],
    ] as const)
      if (geometry.trailer)
        add(
          geometry.trailer.id,
          rows.map((row) => factor * hitch(geometry, row)),
        );
  return out;
}

function alike(one: object | null | undefined, other: object | null | undefined): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

/** Row by part; without a trailer its rows carry nothing. */
function kgOf(parts: readonly Part[], geometry: Geometry | null, rows: readonly string[]): number[][] {
  const there = rows.filter((row) => !TOWED.includes(row) || geometry?.trailer != null);
  const { shares } = design({ parts, geometry: geometry!, rows: there });
  return rows.map((row) => {
    const k = there.indexOf(row);
    return parts.map((part, j) => (k < 0 ? 0 : shares[k]![j]! * part.mass_kg));
  });
}

function hitch(geometry: Geometry, row: string): number {
  return hitchOffsetKg({ row, geometry });
}

/** What changed of a record that is in both; nothing where it is not, or is the same. */
function howChanged(was: Named, now: Named): How[] {
  if (was.size === 0 || now.size === 0) return [];
  const mass = !alike(massesOf(was), massesOf(now));
  const moved = [...now].some(
    ([name, part]) => was.has(name) && !alike(whereOf(name, part), whereOf(name, was.get(name)!)),
  );
  const known = !mass && !alike(doubtsOf(was), doubtsOf(now));
  const words = { mass, moved, known };
  return (["mass", "moved", "known"] as const).filter((word) => words[word]);
}

/** Why a record is in one plan alone: with its trailer, from an order, or as something new. */
function howCame(id: string, now: Named, first: Taken, second: Taken): How[] {
  const came = now.size > 0;
  const [here, there] = came ? [second, first] : [first, second];
  if ([...there.things.values()].some((one) => one.record_id === id)) return [];
  const { on = "vehicle" } = [...here.things.values()].find((one) => one.record_id === id)!.part;
  if (on !== "vehicle" && on !== there.geometry?.trailer?.id) return [came ? "coupled" : "uncoupled"];
  if (stageOf(there, id) === "on_order") return [stageOf(here, id) === "on_order" ? "ordered" : "fitted"];
  return [came ? "added" : "removed"];
}

function stageOf({ book }: Taken, id: string): string | null {
  const row = book.items.find((one) => one.id === id);
  return row ? (row.body.stage ?? "fitted") : null;
}

function massesOf(parts: Named): number[] {
  return [...parts.values()].map((part) => sign(part) * part.mass_kg);
}

/** What stands over an axle goes where that goes. */
function whereOf(name: string, part: Part): unknown[] {
  const { x_m, y_m = 0, z_m = null, on = "vehicle", roof = false } = part;
  return [STANDING.test(name) ? 0 : x_m, y_m, z_m, on, roof];
}

function doubtsOf(parts: Named): number[][] {
  return [...parts.values()].map(({ mass_u_kg, x_u_m = 0, y_u_m = 0, z_u_m = 0 }) => [
    ...[mass_u_kg, x_u_m],
    ...[y_u_m, z_u_m],
  ]);
}

function massOf(parts: Named): number | null {
  return parts.size === 0 ? null : massesOf(parts).reduce((sum, kg) => sum + kg, 0);
}

/** Where they are, if that is one place. */
function placeOf(parts: Named): number | null {
  const places = new Set([...parts.values()].map((part) => part.x_m));
  return places.size === 1 ? [...places][0]! : null;
}
