/** The plan through time: how each record stood on a day, and who changed what until a weighing. */
import { type Book, dayOf, type Edit, type Row } from "./book";
import { DomainError } from "./errors";
import { planIn } from "./plan";
import { type Part, sign } from "./statics";
import type { PlannedDay } from "./weighed";

const NOTHING_ABOARD = { tanks: [], seats: [], items_away: [], trailers_on: [] };

/** What one author did to one record: its parts before the first and after the last of his edits. */
export interface Change {
  readonly record_id: string;
  readonly author: string;
  readonly before: readonly Part[];
  readonly after: readonly Part[];
  readonly mass_kg: number;
}

/** The lasting parts on a day, and record by record what changed until the weighing. */
export interface History {
  readonly day: string;
  readonly parts: readonly Part[];
  readonly base: readonly Change[];
  readonly items: readonly Change[];
}

export interface Until {
  readonly book: Book;
  readonly until: string;
}

/** new, removed or changed. */
export function howOf({ before, after }: Change): "new" | "removed" | "changed" {
  if (before.length > 0 && after.length > 0) return "changed";
  return after.length > 0 ? "new" : "removed";
}

/** The days on which the vehicle or an item was entered or edited, up to an instant (UTC), in order. */
export function planDays({ book, until }: Until): string[] {
  const edits = book.edits.filter(({ kind, at }) => (kind === "vehicle" || kind === "item") && at <= until);
  return [...new Set(edits.map((edit) => dayOf({ edit })))].sort();
}

/** The first day with an item on the list, else the first of the plan, else the day of the instant itself. */
export function firstDay({ book, until }: Until): string {
  const items = book.edits.filter(({ kind, at }) => kind === "item" && at <= until);
  const days = items.length > 0 ? items.map((edit) => dayOf({ edit })).sort() : planDays({ book, until });
  return days[0] ?? until.slice(0, 10);
}

export interface HistoryOf {
  readonly book: Book;
  readonly weighed: PlannedDay;
  readonly day: string;
}

/** The lasting plan at the end of a day, and each author's changes from there to the weighing's plan. */
export function history({ book, weighed, day }: HistoryOf): History {
  if (!/^[\d-]{10}$/.test(day)) throw new DomainError("day", day, "a day like 2026-03-04");
  const parts: Part[] = [];
  const past = (rows: readonly Row[], partsOf: (book: Book, row: Row) => readonly Part[]) =>
    rows.flatMap((row) => {
      const stood = stepsOf(book, weighed, row, day).map(([author, one]): Stood => {
        return [author, one === null ? [] : partsOf(book, one)];
      });
      parts.push(...stood[0]![1]);
      return changesOf(row.id, stood);
    });
  const base = past(book.vehicle ? [book.vehicle] : [], baseOf);
  const items = past([...book.items, ...book.gone.filter((row) => row.kind === "item")], itemOf);
  return { day, parts, base, items };
}

/** Sum of masses with their sign, kg. */
export function massOf({ parts }: { readonly parts: readonly Part[] }): number {
  return parts.reduce((total, part) => total + sign(part) * part.mass_kg, 0);
}

type Stood = readonly [author: string, parts: readonly Part[]];
type Step = readonly [author: string, row: Row | null];

/** Author and record from the day on, one step per edit; null where the record was not there. */
function stepsOf(book: Book, { revisions, visit }: PlannedDay, row: Row, day: string): Step[] {
  const edits = book.edits.filter((one) => one.record_id === row.id);
  const rev = revisions === null ? row.rev : (revisions[row.id] ?? null);
  const last = atWeighing(edits, visit.at, rev);
  if (last === null) {
    const there = revisions === null ? !row.body.deleted : rev !== null;
    const body = (revisions === null || rev === null ? null : book.revisions[rev]) ?? row.body;
    return [[row.author ?? "", there ? { ...row, body } : null]];
  }
  const byThen = edits.findLastIndex((edit) => dayOf({ edit }) <= day);
  const first = Math.min(byThen, last);
  const step = (one: Edit): Step => [one.author, rowAt(row, one)];
  return [first < 0 ? ["", null] : step(edits[first]!), ...edits.slice(first + 1, last + 1).map(step)];
}

/** Which edit the weighing's plan had; -1 for a record that was not yet there, null where no edit tells. */
function atWeighing(edits: readonly Edit[], at: string, rev: string | null): number | null {
  if (rev !== null) {
    const place = edits.findIndex((one) => one.rev === rev);
    return place < 0 ? null : place;
  }
  if (edits.length === 0) return null;
  return edits.findLastIndex((one) => one.at <= at && one.body.deleted);
}

function rowAt(row: Row, { rev, body }: Edit): Row | null {
  return body.deleted ? null : { ...row, rev, body };
}

function baseOf(book: Book, vehicle: Row): readonly Part[] {
  return planIn({ book: { ...book, vehicle, items: [], trailers: [] }, state: NOTHING_ABOARD }).lasting;
}

function itemOf(book: Book, row: Row): readonly Part[] {
  return planIn({ book: { ...book, vehicle: null, items: [row], trailers: [] }, state: NOTHING_ABOARD })
    .lasting;
}

/** Per author, in the order of their first edit; an edit that moved no mass says nothing here. */
function changesOf(record_id: string, stood: readonly Stood[]): Change[] {
  const found = new Map<string, Change>();
  for (const [i, [author, after]] of stood.slice(1).entries()) {
    const before = stood[i]![1];
    const mass_kg = massOf({ parts: after }) - massOf({ parts: before });
    if (mass_kg === 0) continue;
    const known = found.get(author);
    found.set(author, {
      record_id,
      author,
      before: known?.before ?? before,
      after,
      mass_kg: mass_kg + (known?.mass_kg ?? 0),
    });
  }
  return [...found.values()];
}
