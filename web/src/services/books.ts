/** Vehicles, their records and who shares them: everything a screen reads and saves. */
import type { Book, Body as DomainBody, Edit, Row } from "../domain/book";
import { openBook } from "../domain/book";
import { heldRecordsOf } from "../store/held";
import { recordsOfKind, versionsOfBook } from "../store/rows";
import type { RecordRow, UserTables } from "../store/tables";
import { openConflicts, placeOf } from "../sync/fold";
import { type Body, type Member, PLAN_KINDS, type Role, type Version } from "../sync/mutation";
import { type Heard, heardOf } from "./heard";

/** One line of the list of vehicles. */
export interface VehicleLine {
  readonly book: string;
  readonly name: string;
  readonly role: Role;
  /** Not yet at the server. */
  readonly pending: boolean;
}

/** A book as a screen works with it. */
export interface OpenedBook {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly members: readonly Member[];
  /** The records by kind, as the calculations take them. */
  readonly book: Book;
  /** Edits that were made at the same time as others and wait for a person to choose. */
  readonly conflicts: readonly Version[];
  /** When each other person's phone, or another of one's own, was last heard. */
  readonly heard: readonly Heard[];
  /** Ids of records of which something has not reached the server. */
  readonly pending: ReadonlySet<string>;
}

/** All vehicles on this device, by name. */
export async function vehicleLines(tables: UserTables): Promise<VehicleLine[]> {
  const [vehicles, books] = await Promise.all([recordsOfKind(tables, "vehicle"), tables.books.toArray()]);
  const roles = new Map(books.map((one) => [one.book, one.role]));
  return vehicles
    .filter((one) => one.body.deleted !== true)
    .map(({ book, body, pending }) => ({
      book,
      name: nameOf(body),
      role: roles.get(book) ?? "owner",
      pending,
    }))
    .sort((a, b) => a.name.localeCompare(b.name) || (a.book < b.book ? -1 : 1));
}

/** Whether this device has a book. */
export async function isHere(tables: UserTables, id: string): Promise<boolean> {
  return (await tables.records.get([id, id])) !== undefined;
}

/** One book, or null when this device has none of that id. */
export async function openedBook(tables: UserTables, id: string): Promise<OpenedBook | null> {
  const [records, versions, share] = await Promise.all([
    heldRecordsOf(tables, id),
    versionsOfBook(tables, id),
    tables.books.get(id),
  ]);
  const vehicle = records.find((one) => one.id === id);
  if (vehicle === undefined) return null;
  const revisions = Object.fromEntries(versions.map((one) => [one.rev, one.body as DomainBody]));
  return {
    id,
    name: nameOf(vehicle.body),
    role: share?.role ?? "owner",
    members: share?.members ?? [],
    book: openBook({ rows: rowsOf(id, records), revisions, edits: editsOf(versions) }),
    conflicts: openConflicts(versions),
    heard: await heardOf(tables, { book: id, records, members: share?.members ?? [] }),
    pending: new Set(records.filter((one) => one.pending).map((one) => one.id)),
  };
}

/** One entry of the log as it was written. */
export interface LogLine {
  readonly row: Row;
  /** Struck out, or replaced by a later entry. */
  readonly corrected: boolean;
  /** Not yet at the server. */
  readonly waiting: boolean;
}

/** Everything that was written into a book's log, newest first; what was corrected stays. */
export async function logLines(tables: UserTables, id: string): Promise<LogLine[]> {
  const log = (await heldRecordsOf(tables, id)).filter((one) => !PLAN_KINDS.has(one.kind));
  const rows = rowsOf(id, log);
  const { aboard, weighings, unread, fills, dips, transfers, waters, events } = openBook({ rows });
  const lists = [
    aboard,
    weighings,
    unread,
    fills,
    dips,
    transfers,
    waters,
    events,
    rows.filter((one) => one.kind === "correction"),
  ];
  const counting = new Set(lists.flat().map((one) => one.id));
  return rows
    .map((row, index) => ({ row, corrected: !counting.has(row.id), waiting: log[index]?.pending ?? false }))
    .sort((a, b) => compare(b.row.body.at, a.row.body.at) || (b.row.order ?? 0) - (a.row.order ?? 0));
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The versions that were applied: in the server's order, then those that have not reached it. */
function editsOf(versions: readonly Version[]): Edit[] {
  return versions
    .filter((one) => one.standing === "applied")
    .sort((a, b) => placeOf(a) - placeOf(b))
    .map(({ id, kind, rev, author, made_at, body, utc_offset_min }) => ({
      record_id: id,
      kind,
      rev,
      author,
      at: made_at,
      body: body as DomainBody,
      day: new Date(Date.parse(made_at) + utc_offset_min * 60_000).toISOString().slice(0, 10),
    }));
}

/** An entry of the log never changes: it is the same object each time, so that what was made of it serves again. */
function rowsOf(book: string, records: readonly RecordRow[]): Row[] {
  if (entries.book !== book) entries = { book, rows: new Map() };
  const { rows } = entries;
  return records.map((one) => {
    if (PLAN_KINDS.has(one.kind)) return rowOf(one);
    const known = rows.get(one.id);
    if (known && known.rev === one.rev && known.order === one.order && known.author === one.author)
      return known;
    const row = rowOf(one);
    rows.set(one.id, row);
    return row;
  });
}

/** Those of the book that was opened last. */
let entries: { readonly book: string; readonly rows: Map<string, Row> } = { book: "", rows: new Map() };

function rowOf({ id, kind, rev, body, order, author }: RecordRow): Row {
  return { id, kind, rev, body: body as DomainBody, order, author };
}

function nameOf(body: Body): string {
  return typeof body.name === "string" ? body.name : "";
}
