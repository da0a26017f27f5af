/** A book opened: the plan's records as they stand, and the log without what has been corrected away. */
import { bridgeOf, reachKg } from "./bridge";
import { checkRange, DomainError } from "./errors";

// biome-ignore lint/suspicious/noExplicitAny: the body's shape is the contract's; the schemas guard it at the door
export type Body = Readonly<Record<string, any>>;

export const PLAN_KINDS = ["vehicle", "trailer", "plate", "item", "tank", "seat", "person", "route"] as const;
export const LOG_KINDS = [
  "aboard",
  "weighing",
  "fill",
  "dip",
  "transfer",
  "water",
  "event",
  "correction",
] as const;
/** A correction by which an entry stays as it is. */
export const KEPT = "kept";

/** One record as a device or the server holds it. `order` counts up in the order of recording. */
export interface Row {
  readonly id: string;
  readonly kind: string;
  readonly rev: string;
  readonly body: Body;
  readonly order?: number;
  readonly author?: string;
}

/** One version of a plan record, whole; `at` is when its device says it was made, UTC, `day` the day that it was there. */
export interface Edit {
  readonly record_id: string;
  readonly kind: string;
  readonly rev: string;
  readonly author: string;
  readonly at: string;
  readonly body: Body;
  readonly day?: string;
}

/** The plan now, the log that counts, plan records since deleted, and earlier revisions of the plan. */
export interface Book {
  readonly vehicle: Row | null;
  readonly trailers: readonly Row[];
  readonly plates: readonly Row[];
  readonly items: readonly Row[];
  readonly tanks: readonly Row[];
  readonly seats: readonly Row[];
  readonly people: readonly Row[];
  readonly routes: readonly Row[];
  readonly aboard: readonly Row[];
  readonly weighings: readonly Row[];
  readonly fills: readonly Row[];
  readonly dips: readonly Row[];
  readonly transfers: readonly Row[];
  readonly waters: readonly Row[];
  readonly events: readonly Row[];
  /** Corrections by which an entry is right as typed, or another one than the entry beside it. */
  readonly kept: readonly Row[];
  readonly gone: readonly Row[];
  readonly revisions: Readonly<Record<string, Body>>;
  /** The versions of the plan that were applied, in the order of recording. */
  readonly edits: readonly Edit[];
  /** Weighings that count but cannot be read; nothing rests on them. */
  readonly unread: readonly Row[];
}

export interface OpenBook {
  readonly rows: Iterable<Row>;
  readonly revisions?: Readonly<Record<string, Body>>;
  readonly edits?: readonly Edit[];
}

/** Sort a book's rows by kind; deleted and corrected ones are left out, a weighing that cannot be read stands apart. */
export function openBook({ rows, revisions = {}, edits = [] }: OpenBook): Book {
  const kept = new Map<string, Row[]>([...PLAN_KINDS, ...LOG_KINDS].map((kind) => [kind, []]));
  const gone: Row[] = [];
  for (const row of rows) (row.body.deleted && kept.has(row.kind) ? gone : kept.get(row.kind))?.push(row);
  const voided = voidIds(LOG_KINDS.flatMap((kind) => kept.get(kind) ?? []));
  const plan = (kind: string) => [...(kept.get(kind) ?? [])].sort(byOrder);
  const log = (kind: string) =>
    (kept.get(kind) ?? [])
      .filter((row) => !voided.has(row.id))
      .sort((a, b) => compare(a.body.at, b.body.at) || byOrder(a, b));
  const weighings = log("weighing");
  return {
    vehicle: plan("vehicle")[0] ?? null,
    trailers: plan("trailer"),
    plates: plan("plate"),
    items: plan("item"),
    tanks: plan("tank"),
    seats: plan("seat"),
    people: plan("person"),
    routes: plan("route"),
    aboard: log("aboard"),
    weighings: weighings.filter((row) => !isUnread(row)),
    fills: log("fill"),
    dips: log("dip"),
    transfers: log("transfer"),
    waters: log("water"),
    events: log("event"),
    kept: log("correction").filter((row) => row.body.what === KEPT),
    gone: gone.sort(byOrder),
    revisions,
    edits: edits.filter((edit) => (PLAN_KINDS as readonly string[]).includes(edit.kind)),
    unread: weighings.filter(isUnread),
  };
}

/** Refuse a weighing that cannot be read: its scale is in percent without the figure, or does not reach a load. */
export function checkWeighing({ weighing }: { readonly weighing: Row }): void {
  const { bridge: scale, readings } = weighing.body;
  const bridge = bridgeOf({ key: weighing.id, body: scale ?? {} });
  const high = reachKg({ bridge });
  for (const { value_kg, struck_out } of (readings ?? []) as Body[])
    if (!struck_out) checkRange("value_kg", value_kg, { low: 0, high, unit: "kg" });
}

function isUnread(weighing: Row): boolean {
  try {
    checkWeighing({ weighing });
  } catch (error) {
    if (error instanceof DomainError) return true;
    throw error;
  }
  return false;
}

/** The records of one kind that took part: the present ones, or those that a weighing names. */
export function rowsOfDay(
  book: Book,
  kind: string,
  rows: readonly Row[],
  revisions: Readonly<Record<string, string>> | null,
): readonly Row[] {
  if (revisions === null) return rows;
  return [...rows, ...book.gone.filter((row) => row.kind === kind)].filter((row) => row.id in revisions);
}

/** The record's body at a revision, or the present one where that revision is not at hand. */
export function bodyOfDay(book: Book, row: Row, rev: string | null): Body {
  if (rev === null || rev === row.rev) return row.body;
  return book.revisions[rev] ?? row.body;
}

/** The day of an edit, like 2026-03-04; by UTC where it was not kept. */
export function dayOf({ edit }: { readonly edit: Edit }): string {
  return edit.day || edit.at.slice(0, 10);
}

/** Entries with a correction that itself still counts and does not keep them. */
function voidIds(entries: readonly Row[]): Set<string> {
  const correctors = new Map<string, string[]>();
  for (const entry of entries) {
    const target: string | undefined = entry.kind === "correction" ? entry.body.of_id : entry.body.corrects;
    if (target && entry.body.what !== KEPT)
      correctors.set(target, [...(correctors.get(target) ?? []), entry.id]);
  }
  const counts = new Map<string, boolean>();
  const counted = (id: string): boolean => {
    if (!counts.has(id)) {
      counts.set(id, true); // an entry that corrects itself in a circle still counts
      counts.set(id, !(correctors.get(id) ?? []).some(counted));
    }
    return counts.get(id) as boolean;
  };
  return new Set([...correctors.keys()].filter((id) => !counted(id)));
}

function byOrder(a: Row, b: Row): number {
  return (a.order ?? 0) - (b.order ?? 0) || compare(a.id, b.id);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
