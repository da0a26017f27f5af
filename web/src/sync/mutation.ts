/** What travels between a device and the server; the page on the protocol is `server/sync/README.md`. */

export type Body = Readonly<Record<string, unknown>>;
export type Standing = "applied" | "conflict";
export type Outcome = Standing | "duplicate" | "wait" | "rejected";
export type Role = "owner" | "co_driver" | "fitter";

export const SCHEMA = 1;
export const MUTATIONS_AT_ONCE = 100;
export const BYTES_AT_ONCE = 800_000; // below the server's limit of 1 MB for a body, with room for the envelope

export const PLAN_KINDS: ReadonlySet<string> = new Set([
  "vehicle",
  "trailer",
  "plate",
  "item",
  "tank",
  "seat",
  "person",
  "route",
]);

/** One thing that a person did. `mut` names it for ever and is the revision that it makes. */
export interface Mutation {
  readonly mut: string;
  readonly book: string;
  readonly kind: string;
  readonly id: string;
  readonly base_rev: string | null;
  readonly body: Body;
  readonly made_at: string;
  readonly utc_offset_min: number;
  readonly device_seq: number;
  readonly schema: number;
}

/** A mutation that was kept, with the whole record after it. On a device `seq` 0 means: not yet at the server. */
export interface Version {
  readonly book: string;
  readonly seq: number;
  readonly rev: string;
  readonly kind: string;
  readonly id: string;
  readonly base_rev: string | null;
  readonly standing: Standing;
  readonly body: Body;
  readonly author: string;
  readonly device: string;
  readonly device_seq: number;
  readonly made_at: string;
  readonly utc_offset_min: number;
  readonly received_at: string | null;
}

export interface Refusal {
  readonly code: string;
  readonly message: string;
  readonly fields: Readonly<Record<string, readonly string[]>>;
}

export interface Answer {
  readonly mut: string | null;
  readonly outcome: Outcome;
  readonly error?: Refusal;
}

export interface Member {
  readonly user: string;
  readonly name: string;
  readonly role: Role;
}

export interface BookNews {
  readonly book: string;
  readonly role: Role;
  readonly checkpoint: number;
  readonly more: boolean;
  readonly members: readonly Member[];
  readonly versions: readonly Version[];
}

export interface BookMark {
  readonly book: string;
  readonly checkpoint: number;
  /** Entries of the book that stay on the device when the request has been sent. */
  readonly unsent?: number;
}

/** When another device of a book was last heard; `unsent` is null where it did not tell. */
export interface HeardOf {
  readonly book: string;
  readonly user: string;
  readonly device: string;
  readonly at: string;
  readonly unsent: number | null;
}

export interface SyncRequest {
  readonly device: string;
  readonly mutations: readonly Mutation[];
  readonly books: readonly BookMark[];
  readonly heard_since?: string;
}

export interface SyncAnswer {
  readonly user: { readonly id: string; readonly name: string };
  readonly now: string;
  readonly generation: string;
  readonly answers: readonly Answer[];
  readonly books: readonly BookNews[];
  readonly gone: readonly string[];
  readonly heard: readonly HeardOf[];
}
