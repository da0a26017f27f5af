/**
 * Edits of the plan made in this visit, each with what takes it back. Records are revisions: taking back is one more
 * edit, and nothing that was written is ever removed.
 */
import { type Signal, signal } from "@preact/signals";
import type { Row } from "@/services/answers";
import { type EditOptions, type Records, same } from "@/services/records";
import { words } from "@/ui/text/record";

type Body = Row["body"];

export interface Step {
  readonly kind: string;
  readonly id: string;
  /** The revision that the edit started from; none for a record that it made. */
  readonly from: string | null;
  /** The fields as they were, and as they were left. */
  readonly before: Body;
  readonly after: Body;
  readonly label: string;
  /** The other records of one step that made several. */
  readonly others?: readonly string[];
}

export interface Edits {
  readonly steps: Signal<readonly Step[]>;
  /** One edit of one record, from the revision that its form or cell was opened on. */
  readonly put: (kind: string, row: Row, change: Body, what: string, options?: EditOptions) => Promise<void>;
  readonly add: (kind: string, body: Body) => Promise<string>;
  /** Several new records as one step, all or nothing. */
  readonly addAll: (kind: string, bodies: readonly Body[], what: string) => Promise<void>;
  readonly remove: (kind: string, row: Row) => Promise<void>;
  /** Takes the last edit back; tells in words what somebody else has changed since, and leaves that. */
  readonly undo: (rows: readonly Row[]) => Promise<string | null>;
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
  const steps = signal<readonly Step[]>([]);
  // a revision that an edit of ours has replaced: the next one goes on from there, though the page may not show it yet
  const replaced = new Set<string>();
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = last.then(work, work);
    last = mine;
    return mine;
  };
  const keep = (step: Step) => {
    if (step.from) replaced.add(step.from);
    steps.value = [...steps.value, step];
  };
  const put: Edits["put"] = (kind, row, change, what, { base_rev = row.rev, ...rest } = {}) =>
    inTurn(async () => {
      const options = replaced.has(base_rev) ? rest : { ...rest, base_rev };
      await records.edit(book, kind, row.id, change, options);
      const label = words.edited(nameOf(row), what);
      keep({ kind, id: row.id, from: base_rev, before: reverse(row.body, change), after: change, label });
    });
  return {
    steps,
    put,
    add: (kind, body) =>
      inTurn(async () => {
        const id = await records.add(book, kind, body);
        const label = words.edited(body.name ?? "", words.added);
        keep({ kind, id, from: null, before: { deleted: true }, after: {}, label });
        return id;
      }),
    addAll: (kind, bodies, what) =>
      inTurn(async () => {
        const made = bodies.map((body) => ({ kind, body }));
        const [id, ...others] = await records.takeIn(book, made);
        const label = words.edited(what, words.added);
        if (id) keep({ kind, id, others, from: null, before: { deleted: true }, after: {}, label });
      }),
    remove: (kind, row) => put(kind, row, { deleted: true }, words.takenOut),
    undo: (rows) =>
      inTurn(async () => {
        const step = steps.value.at(-1);
        if (!step) return null;
        if (step.others) {
          const left = stillThere([step.id, ...step.others], rows);
          const back = left.map((edits) => ({ kind: step.kind, body: step.before, edits }));
          await records.takeIn(book, back);
          for (const { rev } of left) replaced.add(rev);
          steps.value = steps.value.slice(0, -1);
          return null;
        }
        const row = rows.find((one) => one.id === step.id);
        const touched = row && row.rev !== step.from && !holds(row.body, step.after);
        if (!touched) await records.edit(book, step.kind, step.id, step.before);
        if (row) replaced.add(row.rev);
        steps.value = steps.value.slice(0, -1);
        return touched ? words.changedSince(step.label) : null;
      }),
  };
}

/** What has been taken out meanwhile stays out; what the page does not show yet is there. */
function stillThere(ids: readonly string[], rows: readonly Row[]): { id: string; rev: string }[] {
  return ids.flatMap((id) => {
    const row = rows.find((one) => one.id === id);
    return row?.body.deleted ? [] : [{ id, rev: row?.rev ?? "" }];
  });
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
  return Object.entries(after).every(
    ([name, value]) => name === "as_typed" || same(body[name] ?? null, value),
  );
}

function nameOf({ body }: Row): string {
  return body.name ?? "";
}
