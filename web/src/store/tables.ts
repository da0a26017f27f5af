/** The tables of a user's database and of the device's, and what their rows hold. */
import type { EntityTable, Table } from "dexie";
import type { Member, Role, Version } from "../sync/mutation";
import type { Attention, Queued } from "../sync/outbox";

/** A record as it stands on this device, edits on their way included. */
export interface RecordRow extends Version {
  readonly pending: boolean;
  readonly order: number;
}

export interface AttentionRow extends Attention {
  readonly book: string;
}

/** A book that the server has named; one made here and not yet sent has no row. */
export interface BookRow {
  readonly book: string;
  readonly role: Role;
  readonly checkpoint: number;
  readonly members: readonly Member[];
}

/** A form as last typed. */
export interface DraftRow {
  readonly key: string;
  readonly value: unknown;
  readonly at: string;
}

export interface MetaRow {
  readonly key: string;
  readonly value: unknown;
}

export interface UserTables {
  readonly records: Table<RecordRow, [string, string]>;
  /** Every version of the plan records, those that wait for the server with `seq` 0. */
  readonly versions: EntityTable<Version, "rev">;
  readonly outbox: EntityTable<Queued, "mut">;
  readonly attention: EntityTable<AttentionRow, "mut">;
  readonly drafts: EntityTable<DraftRow, "key">;
  readonly books: EntityTable<BookRow, "book">;
  readonly meta: EntityTable<MetaRow, "key">;
}

// Additive changes only: an old tab that is still open goes on writing with the code it has.
export const USER_SCHEMA: Readonly<Record<keyof UserTables, string>> = {
  records: "[book+id], kind",
  versions: "rev, [book+id]",
  outbox: "mut, device_seq, [book+id], state",
  attention: "mut, book",
  drafts: "key",
  books: "book",
  meta: "key",
};

/** Somebody who has signed in on this device. */
export interface AccountRow {
  readonly id: string;
  readonly name: string;
}

export interface DeviceTables {
  readonly accounts: EntityTable<AccountRow, "id">;
  readonly meta: EntityTable<MetaRow, "key">;
}

export const DEVICE_SCHEMA: Readonly<Record<keyof DeviceTables, string>> = {
  accounts: "id",
  meta: "key",
};
