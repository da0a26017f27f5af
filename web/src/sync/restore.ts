/** After the server was restored from a backup: what this device offers once more. */
import { changeBetween } from "./merge";
import type { Mutation, Version } from "./mutation";

export interface Offering {
  /** All versions known here that the server once kept. */
  readonly versions: readonly Version[];
  readonly author: string;
  readonly first_seq: number;
  readonly schema: number;
}

/**
 * The author's own versions as the mutations that made them, in the server's old order. Those that the server
 * still has come back as duplicates or with its news, and are dropped then; the others it gets again.
 */
export function offerAgain({ versions, author, first_seq, schema }: Offering): Mutation[] {
  const byRev = new Map(versions.map((one) => [one.rev, one]));
  const own = versions.filter((one) => one.author === author && one.seq > 0);
  return own
    .sort((a, b) => a.seq - b.seq)
    .map(({ rev, book, kind, id, base_rev, body, made_at, utc_offset_min }, index) => {
      const base = base_rev === null ? undefined : byRev.get(base_rev);
      const change = base === undefined ? body : changeBetween(base.body, body);
      const said = { made_at, utc_offset_min, device_seq: first_seq + index, schema };
      return { mut: rev, book, kind, id, base_rev, body: change, ...said };
    });
}
