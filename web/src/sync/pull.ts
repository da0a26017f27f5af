/** What a stretch of news of one book does to the rows of this device. */
import { fold, placeOf } from "./fold";
import { type BookNews, type Mutation, PLAN_KINDS, type Version } from "./mutation";
import { inOrder, type Queued, returned } from "./outbox";

/** A record as shown: its current version, and whether something of it is still on its way. */
export interface Shown {
  readonly version: Version;
  readonly pending: boolean;
  /** Counts up in the order of entry. */
  readonly order: number;
}

export interface Rows {
  readonly shown: readonly Shown[];
  /** Records of which nothing is left, by id. */
  readonly removed: readonly string[];
  /** Versions to keep; a log entry has only one, and it is the shown row. */
  readonly versions: readonly Version[];
  /** Revisions of local versions that nothing stands behind any more. */
  readonly dropped: readonly string[];
}

export interface Pulled extends Rows {
  /** Mutations to take out of the outbox. */
  readonly returned: readonly string[];
}

export interface Pulling {
  readonly news: Pick<BookNews, "versions" | "more">;
  /** This book's outbox, as this request's answers have left it. */
  readonly queue: readonly Queued[];
  /** All versions known here of the plan records that are touched. */
  readonly known: readonly Version[];
  readonly author: string;
  readonly device: string;
}

/** The ids of the plan records that news and outbox touch; `pull` has to be given their known versions. */
export function touched({ versions }: Pick<BookNews, "versions">, queue: readonly Queued[]): string[] {
  return [...new Set([...versions, ...queue].filter(isPlan).map((one) => one.id))];
}

/**
 * Take in news. The same versions in any order, in any number of stretches and repeated, lead to the same rows;
 * an entry in the outbox is shown until its own version has come, and never twice.
 */
export function pull({ news, queue, known, author, device }: Pulling): Pulled {
  const gone = new Set(returned(queue, news.versions, !news.more));
  const left = inOrder(queue.filter((one) => !gone.has(one.mut)));
  const log = news.versions.filter((one) => !isPlan(one));
  const plan = news.versions.filter(isPlan);
  const rows = [...byRecord([...known, ...plan])].map(([id, versions]) =>
    refold({ id, versions, pending: left.filter((one) => one.id === id), author, device }),
  );
  return {
    shown: [
      ...log.map((version) => ({ version, pending: false, order: version.seq })),
      ...rows.flatMap((one) => one.shown),
    ],
    removed: rows.flatMap((one) => one.removed),
    versions: [...plan, ...rows.flatMap((one) => one.versions)],
    dropped: rows.flatMap((one) => one.dropped),
    returned: [...gone],
  };
}

export interface Refolding {
  readonly id: string;
  /** All versions known here of the record, local ones included. */
  readonly versions: readonly Version[];
  readonly pending: readonly Mutation[];
  readonly author: string;
  readonly device: string;
}

/** One record's rows anew, after its versions or its pending mutations have changed. */
export function refold({ id, versions, pending, author, device }: Refolding): Rows {
  const { current, local } = fold({ versions, pending, author, device });
  const kept = new Set([...versions.filter((one) => one.seq > 0), ...local].map((one) => one.rev));
  const order = orderOf([...versions.filter((one) => one.seq > 0), ...local]);
  return {
    shown: current === null ? [] : [{ version: current, pending: local.length > 0, order }],
    removed: current === null ? [id] : [],
    versions: local.filter(isPlan),
    dropped: versions.filter((one) => !kept.has(one.rev)).map((one) => one.rev),
  };
}

/** The place of a record in the order of entry: where the server first numbered it, else after all that it has. */
function orderOf(versions: readonly Version[]): number {
  return Math.min(...versions.map(placeOf));
}

function isPlan(one: { readonly kind: string }): boolean {
  return PLAN_KINDS.has(one.kind);
}

/** By the id of their record, in the order given. */
export function byRecord<T extends { readonly id: string }>(versions: readonly T[]): Map<string, T[]> {
  return grouped(versions, (one) => one.id);
}

/** By any key, in the order given. */
export function grouped<T>(all: readonly T[], key: (one: T) => string): Map<string, T[]> {
  const found = new Map<string, T[]>();
  for (const one of all) {
    const group = found.get(key(one));
    if (group === undefined) found.set(key(one), [one]);
    else group.push(one);
  }
  return found;
}
