/**
 * Edits of the plan made in this visit, each with what takes it back. Records are revisions: taking back is one more
 * edit, and nothing that was written is ever removed.
 */
import { type Signal, signal } from "@preact/signals";
import type { Row } from "@/services/answers";
import { type EditOptions, type Listed, type Records, same } from "@/services/records";
import { words } from "@/ui/text/record";

type Body = Row["body"];

/** What one step did to one record. */
export interface Change {
  readonly kind: string;
  readonly id: string;
  /** The revision that it started from; none for a record that it made. */
  readonly from: string | null;
  /** The fields as they were, and as they were left. */
  readonly before: Body;
  readonly after: Body;
}

export interface Step {
  readonly label: string;
  readonly changes: readonly Change[];
}

/** The changed fields of a record, or without one a new record. */
export interface Wanted {
  readonly kind: string;
  readonly row: Row | null;
  readonly body: Body;
}

export interface Edits {
  readonly steps: Signal<readonly Step[]>;
  /** What was taken back and may be done again; a new edit empties it. */
  readonly undone: Signal<readonly Step[]>;
  /** One edit of one record, from the revision that its form or cell was opened on. */
  readonly put: (kind: string, row: Row, change: Body, what: string, options?: EditOptions) => Promise<void>;
  readonly add: (kind: string, body: Body) => Promise<string>;
  /** Several records as one step, all or nothing; gives their ids. */
  readonly several: (list: readonly Wanted[], what: string) => Promise<readonly string[]>;
  readonly remove: (kind: string, row: Row) => Promise<void>;
  /** Takes the last step back; tells in words what somebody else has changed since, and leaves that. */
  readonly undo: (rows: readonly Row[]) => Promise<string | null>;
  /** Does again what was taken back last, by the same rule. */
  readonly redo: (rows: readonly Row[]) => Promise<string | null>;
}

const VISITS = new WeakMap<Records, Map<string, Edits>>();

/** The edits of one book in this visit, for as long as the page is open. */
export function editsOf(records: Records, book: string): Edits {
  const books = VISITS.get(records) ?? new Map<string, Edits>();
  VISITS.set(records, books);
  const edits = books.get(book) ?? createEdits(records, book);
  books.set(book, edits);
  return edits;
}

function createEdits(records: Records, book: string): Edits {
  const [steps, undone] = [signal<readonly Step[]>([]), signal<readonly Step[]>([])];
  // a revision that an edit of ours has replaced: the next one goes on from there, though the page may not show it yet
  const replaced = new Set<string>();
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = last.then(work, work);
    last = mine;
    return mine;
  };
  const keep = (label: string, ...changes: readonly Change[]) => {
    for (const { from } of changes) if (from) replaced.add(from);
    [steps.value, undone.value] = [[...steps.value, { label, changes }], []];
  };
  const put: Edits["put"] = (kind, row, change, what, { base_rev = row.rev, ...rest } = {}) =>
    inTurn(async () => {
      const options = replaced.has(base_rev) ? rest : { ...rest, base_rev };
      await records.edit(book, kind, row.id, change, options);
      keep(words.edited(nameOf(row), what), changeOf({ kind, row, body: change }, row.id, base_rev));
    });
  /** The last step of one stack turned round and laid on the other. */
  const turn = (rows: readonly Row[], way: Way) =>
    inTurn(async () => {
      const [from, to] = way === "before" ? [steps, undone] : [undone, steps];
      const step = from.value.at(-1);
      if (!step) return null;
      const shown = new Map(rows.map((row) => [row.id, row]));
      const open = openChanges(step, shown, way);
      if (open) await writeTurned(records, book, open, way, shown);
      from.value = from.value.slice(0, -1);
      if (!open) return words.changedSince(step.label);
      const changes = open.map((change) => ({ ...change, from: shown.get(change.id)?.rev ?? change.from }));
      for (const { from: rev } of changes) if (rev) replaced.add(rev);
      if (changes.length > 0) to.value = [...to.value, { ...step, changes }];
      return null;
    });
  return {
    steps,
    undone,
    put,
    add: (kind, body) =>
      inTurn(async () => {
        const id = await records.add(book, kind, body);
        keep(words.edited(body.name ?? "", words.added), changeOf({ kind, row: null, body }, id, null));
        return id;
      }),
    several: (list, what) =>
      inTurn(async () => {
        if (list.length === 0) return [];
        const ids = await records.takeIn(book, listed(list, replaced));
        keep(what, ...list.map((one, i) => changeOf(one, ids[i]!, one.row?.rev ?? null)));
        return ids;
      }),
    remove: (kind, row) => put(kind, row, { deleted: true }, words.takenOut),
    undo: (rows) => turn(rows, "before"),
    redo: (rows) => turn(rows, "after"),
  };
}

function listed(list: readonly Wanted[], replaced: ReadonlySet<string>): Listed[] {
  return list.map(({ kind, row, body }) => ({
    ...{ kind, body },
    edits: row && { id: row.id, rev: replaced.has(row.rev) ? "" : row.rev },
  }));
}

function changeOf({ kind, row, body }: Wanted, id: string, from: string | null): Change {
  if (!row) return { kind, id, from, before: { deleted: true }, after: { deleted: false } };
  return { kind, id, from, before: reverse(row.body, body), after: body };
}

type Shown = ReadonlyMap<string, Row>;
type Way = "before" | "after";

/** One record by an edit of its own, several all or nothing. */
async function writeTurned(
  records: Records,
  book: string,
  open: readonly Change[],
  way: Way,
  shown: Shown,
): Promise<void> {
  const [one, ...others] = open;
  if (!one) return;
  if (others.length === 0) return records.edit(book, one.kind, one.id, one[way]);
  const list = open.map(({ kind, id, ...change }) => ({
    ...{ kind, body: change[way] },
    edits: { id, rev: shown.get(id)?.rev ?? "" },
  }));
  await records.takeIn(book, list);
}

/**
 * The changes of a step that are still to be turned round: what is so already is left alone, and what the page does
 * not show yet is there. Null where somebody else has changed one of its records since.
 */
function openChanges({ changes }: Step, shown: Shown, way: Way): readonly Change[] | null {
  const open: Change[] = [];
  for (const change of changes) {
    const row = shown.get(change.id);
    const ours = !row || row.rev === change.from;
    if (!ours && holds(row.body, change[way])) continue;
    if (!ours && !holds(row.body, change[way === "before" ? "after" : "before"])) return null;
    open.push(change);
  }
  return open;
}

/** What a field that was blank goes back to where its record cannot hold a blank: what it counts as. */
const COUNTS_AS: Body = {
  ...{ known_by: "estimate", position_by: "described", stage: "fitted", count: 1, may_move_to: [] },
  ...{ base_known_by: "estimate", rear_axles: "single", frame: "flexible", standing: "in_force", axles: 1 },
};

/** The edit that takes a change back. */
export function reverse(body: Body, change: Body): Body {
  const names = Object.keys(change).filter((name) => name !== "as_typed");
  const out = Object.fromEntries(names.map((name) => [name, body[name] ?? blankOf(name, change[name])]));
  const typed = Object.entries(body.as_typed ?? {}).filter(([name]) => names.includes(name));
  return typed.length > 0 ? { ...out, as_typed: Object.fromEntries(typed) } : out;
}

/** Flags whose blank is an answer of its own. */
const MAY_BE_BLANK: readonly string[] = ["keep_aboard", "may_stay_behind"];

function blankOf(name: string, now: unknown): unknown {
  if (MAY_BE_BLANK.includes(name)) return null;
  return COUNTS_AS[name] ?? (typeof now === "boolean" ? false : null);
}

function holds(body: Body, after: Body): boolean {
  return Object.entries(after).every(([name, value]) => {
    if (name === "deleted") return Boolean(body.deleted) === value;
    return name === "as_typed" || same(body[name] ?? null, value);
  });
}

function nameOf({ body }: Row): string {
  return body.name ?? "";
}
