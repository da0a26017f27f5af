/** What becomes of a mutation; the server decides the same way, so a device can show what will come of its edit. */
import { mergeEdit } from "./merge";
import type { Mutation, Version } from "./mutation";

export interface Deciding {
  readonly mutation: Mutation;
  /** The record's current version, or null when there is none yet. */
  readonly current: Version | null;
  /** The version that the edit started from, or null when it is not at hand. */
  readonly base: Version | null;
  readonly author: string;
  readonly device: string;
}

export type Decision =
  | { readonly outcome: "applied" | "conflict"; readonly version: Version }
  | { readonly outcome: "duplicate" | "wait"; readonly version: null };

/**
 * A new record or an edit of the current revision is applied; an edit of an earlier one, or of one that itself
 * conflicts, is kept beside; an edit of what has not arrived waits. A second creation of one record is an edit
 * from nothing, and conflicts.
 */
export function decide({ mutation, current, base, author, device }: Deciding): Decision {
  if (current?.rev === mutation.mut) return { outcome: "duplicate", version: null };
  const make = (standing: Version["standing"], from: Version | null): Decision => ({
    outcome: standing,
    version: versionOf({ mutation, standing, base: from, author, device }),
  });
  if (mutation.base_rev === null) return make(current === null ? "applied" : "conflict", null);
  if (current?.rev === mutation.base_rev) return make("applied", current);
  if (base === null) return { outcome: "wait", version: null };
  return make("conflict", base);
}

interface Making {
  readonly mutation: Mutation;
  readonly standing: Version["standing"];
  readonly base: Version | null;
  readonly author: string;
  readonly device: string;
}

function versionOf({ mutation, standing, base, author, device }: Making): Version {
  const { mut, book, kind, id, base_rev, made_at, utc_offset_min, device_seq } = mutation;
  const body = base === null ? mutation.body : mergeEdit(base.body, mutation.body);
  const said = { made_at, utc_offset_min, device_seq, received_at: null };
  return { book, seq: 0, rev: mut, kind, id, base_rev, standing, body, author, device, ...said };
}
