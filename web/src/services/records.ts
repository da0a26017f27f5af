/** What a screen saves: new records, edits, log entries, corrections. */
import type { Body } from "../sync/mutation";
import { giveUp, mendAndSend } from "./attention";
import { type Environment, instant } from "./environment";
import { type Progress, type Saving, type SavingParts, saveAll } from "./save";

export { same } from "../sync/merge";

export interface LogOptions {
  /** An id made when the form was opened: the same entry saved twice is kept once. */
  readonly id?: string;
  /** The draft's key: it goes in the same step as the entry is kept. */
  readonly draft?: string;
}

export interface EditOptions {
  /** The revision that the form was opened on; without it, the one shown now. */
  readonly base_rev?: string;
  readonly draft?: string;
}

/** Each resolves when it is on this device's disk, and needs no network. */
export interface Records {
  /** A new vehicle and what is known of it, all or nothing; returns the book's id. */
  readonly newVehicle: (
    vehicle: Body,
    others?: readonly NewRecord[],
    options?: LogOptions,
  ) => Promise<string>;
  readonly add: (book: string, kind: string, body: Body, options?: LogOptions) => Promise<string>;
  /** New records and edits of a whole list, all or nothing; the ids of its records. */
  readonly takeIn: (book: string, list: readonly Listed[], options?: ListOptions) => Promise<string[]>;
  readonly edit: (
    book: string,
    kind: string,
    id: string,
    change: Body,
    options?: EditOptions,
  ) => Promise<void>;
  /** An entry of the log; `at` and `zone` are now and here unless the body says otherwise. */
  readonly log: (book: string, kind: string, body: Body, options?: LogOptions) => Promise<string>;
  /** Entries of one or several books, all or nothing; `at` and `zone` as in `log`. */
  readonly logAll: (list: readonly BookEntry[]) => Promise<void>;
  readonly mend: (mut: string, body: Body) => Promise<void>;
  readonly giveUp: (mut: string) => Promise<void>;
}

export interface NewRecord {
  readonly kind: string;
  readonly body: Body;
}

export interface BookEntry extends NewRecord {
  readonly book: string;
  /** Where another entry of the list speaks of it. */
  readonly id?: string;
}

/** One row of a list: a new record, or the changed fields of the one that is there. */
export interface Listed extends NewRecord {
  readonly edits?: { readonly id: string; readonly rev: string } | null;
}

export interface ListOptions {
  readonly draft?: string;
  readonly onProgress?: Progress;
}

export interface RecordParts extends SavingParts {
  readonly environment: Pick<Environment, "nowMs" | "utcOffsetMin" | "zone">;
  /** Something was kept: time to send it. */
  readonly onSaved: () => void;
}

export function createRecords(parts: RecordParts): Records {
  const { store, environment, nextId, onSaved } = parts;
  const save = async (list: readonly Saving[], draft: string | undefined, onProgress?: Progress) => {
    await saveAll(parts, list, draft, onProgress);
    onSaved();
  };
  const add: Records["add"] = async (book, kind, body, { id = nextId(), draft } = {}) => {
    await save([{ book, kind, id, body, base_rev: null }], draft);
    return id;
  };
  const happened = () => ({ at: instant(environment.nowMs()), zone: environment.zone() });
  return {
    async newVehicle(vehicle, others = [], { id: book = nextId(), draft } = {}) {
      const first = { book, kind: "vehicle", id: book, body: vehicle, base_rev: null };
      const rest = others.map((one) => ({ ...one, book, id: nextId(), base_rev: null }));
      await save([first, ...rest], draft);
      return book;
    },
    add,
    takeIn: async (book, list, { draft, onProgress } = {}) => {
      const savings = list.map(({ kind, body, edits }) => ({
        ...{ book, kind, body },
        id: edits?.id ?? nextId(),
        base_rev: edits?.rev ?? null,
      }));
      await save(savings, draft, onProgress);
      return savings.map((one) => one.id);
    },
    async edit(book, kind, id, body, { base_rev, draft } = {}) {
      const shown = await store.read((tables) => tables.records.get([book, id]));
      const base = base_rev ?? shown?.rev;
      if (base === undefined) throw new RangeError(`There is no record ${id} to edit in book ${book}.`);
      await save([{ book, kind, id, body, base_rev: base }], draft);
    },
    log: (book, kind, body, options) => add(book, kind, { ...happened(), ...body }, options),
    logAll: (list) => {
      const entry = ({ book, kind, body, id = nextId() }: BookEntry) => ({
        ...{ book, kind, id, base_rev: null },
        body: { ...happened(), ...body },
      });
      return save(list.map(entry), undefined);
    },
    async mend(mut, body) {
      await mendAndSend(parts, mut, body);
      onSaved();
    },
    giveUp: (mut) => giveUp(store, mut),
  };
}
