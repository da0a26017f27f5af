/** A record as this device shows it: what the server has said of it, with the edits still waiting on top. */
import { decide } from "./decide";
import type { Mutation, Version } from "./mutation";

export interface Folding {
  /** What the server has said of one record; versions with `seq` 0 are ignored, for they are made here. */
  readonly versions: readonly Version[];
  /** The record's own mutations that the server has not yet sent back, in order. */
  readonly pending: readonly Mutation[];
  readonly author: string;
  readonly device: string;
}

export interface Folded {
  /** The record as it stands with everything pending; null when nothing of it is known. */
  readonly current: Version | null;
  /** The versions that the pending mutations will make, as far as can be told here. */
  readonly local: readonly Version[];
}

/**
 * Decide each pending mutation as the server will. The result does not depend on the order in which versions
 * came, nor on whether one came twice; a pending mutation that the server already holds counts once.
 */
export function fold({ versions, pending, author, device }: Folding): Folded {
  const known = new Map(versions.filter((one) => one.seq > 0).map((one) => [one.rev, one]));
  let current = latestApplied(known.values());
  const local: Version[] = [];
  for (const mutation of pending) {
    if (known.has(mutation.mut)) continue;
    const base = mutation.base_rev === null ? null : (known.get(mutation.base_rev) ?? null);
    const { version } = decide({ mutation, current, base, author, device });
    if (version === null) continue;
    known.set(version.rev, version);
    local.push(version);
    if (version.standing === "applied") current = version;
  }
  return { current, local };
}

/** The version that counts: of those applied, the one that the server numbered last. */
export function latestApplied(versions: Iterable<Version>): Version | null {
  let latest: Version | null = null;
  for (const one of versions) {
    if (one.standing === "applied" && one.seq > (latest?.seq ?? 0)) latest = one;
  }
  return latest;
}

/** Edits kept beside that nobody has settled: no later version of their record was applied. */
export function openConflicts(versions: readonly Version[]): readonly Version[] {
  const last = new Map<string, number>();
  for (const one of versions) {
    if (one.standing === "applied") last.set(one.id, Math.max(last.get(one.id) ?? 0, placeOf(one)));
  }
  return versions.filter((one) => one.standing === "conflict" && placeOf(one) > (last.get(one.id) ?? 0));
}

const NOT_NUMBERED_YET = 2 ** 52;

/** The place of a version among all: the server's number, and after those what is still on its way. */
export function placeOf(version: Version): number {
  return version.seq > 0 ? version.seq : NOT_NUMBERED_YET + version.device_seq;
}
