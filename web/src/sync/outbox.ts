/** The outbox: which mutations go next, and what an answer does to those that went. */
import {
  type Answer,
  BYTES_AT_ONCE,
  MUTATIONS_AT_ONCE,
  type Mutation,
  PLAN_KINDS,
  type Refusal,
  type Version,
} from "./mutation";

/** A mutation in the outbox. One that the server has kept stays until its version comes back, but is not sent. */
export interface Queued extends Mutation {
  readonly state: "waiting" | "kept";
}

/** A mutation that needs a person: refused, or built on one that was (`because_of`). */
export interface Attention {
  readonly mut: string;
  readonly mutation: Mutation;
  readonly error: Refusal;
  readonly because_of: string | null;
  readonly since: string;
}

export interface Choosing {
  readonly queue: readonly Queued[];
  /** Those not to be sent again in this round. */
  readonly held: ReadonlySet<string>;
  readonly limit?: number;
  readonly bytes?: number;
}

/**
 * The next batch, in the order of recording: nothing already kept, nothing held, and nothing that builds on
 * what is held. One mutation always fits, however long.
 */
export function chooseBatch({
  queue,
  held,
  limit = MUTATIONS_AT_ONCE,
  bytes = BYTES_AT_ONCE,
}: Choosing): Mutation[] {
  const blocked: Mutation[] = [];
  const batch: Mutation[] = [];
  let size = 0;
  for (const { state, ...mutation } of inOrder(queue)) {
    if (state === "kept") continue;
    if (held.has(mutation.mut) || blocked.some((earlier) => buildsOn(mutation, earlier))) {
      blocked.push(mutation);
      continue;
    }
    size += JSON.stringify(mutation).length;
    if (batch.length >= limit || (batch.length > 0 && size > bytes)) break;
    batch.push(mutation);
  }
  return batch;
}

/**
 * Whether a later mutation cannot stand without an earlier one: the same record, a correction of it, or a book
 * still to be made.
 */
export function buildsOn(later: Mutation, earlier: Mutation): boolean {
  if (later.book !== earlier.book || later.device_seq <= earlier.device_seq) return false;
  const makesBook = earlier.base_rev === null && earlier.id === earlier.book;
  return later.id === earlier.id || targetOf(later) === earlier.id || makesBook;
}

/** The id of the entry that a mutation corrects, strikes out or points at; null when it does neither. */
export function targetOf({ kind, body }: Mutation): string | null {
  const target = PLAN_KINDS.has(kind) ? null : kind === "correction" ? body.of_id : body.corrects;
  return typeof target === "string" ? target : null;
}

export interface Answered {
  readonly queue: readonly Queued[];
  readonly answers: readonly Answer[];
  readonly at: string;
}

export interface Settled {
  /** Kept by the server: not sent again. */
  readonly kept: readonly string[];
  /** To be sent again, but not in this round. */
  readonly waiting: readonly string[];
  /** Out of the outbox, to be shown to a person. */
  readonly attention: readonly Attention[];
}

/** What answers do to the outbox. A refused mutation takes with it those that build on it, and no others. */
export function settle({ queue, answers, at }: Answered): Settled {
  const byMut = new Map(queue.map((one) => [one.mut, one]));
  const known = answers.filter((answer) => answer.mut !== null && byMut.has(answer.mut));
  const named = (...outcomes: Answer["outcome"][]) =>
    known.filter((answer) => outcomes.includes(answer.outcome)).map((answer) => answer.mut as string);
  const attention = new Map<string, Attention>();
  for (const answer of known.filter((one) => one.outcome === "rejected")) {
    const refused = byMut.get(answer.mut as string) as Queued;
    for (const one of refusedBy({ refused, queue, error: answer.error ?? UNSAID, at })) {
      if (!attention.has(one.mut) || one.because_of === null) attention.set(one.mut, one);
    }
  }
  return {
    kept: named("applied", "duplicate", "conflict"),
    waiting: named("wait").filter((mut) => !attention.has(mut)),
    attention: [...attention.values()],
  };
}

const UNSAID: Refusal = { code: "rejected", message: "The server gave no reason.", fields: {} };

interface Refusing {
  readonly refused: Queued;
  readonly queue: readonly Queued[];
  readonly error: Refusal;
  readonly at: string;
}

function refusedBy({ refused, queue, error, at }: Refusing): Attention[] {
  const entry = (one: Queued, because_of: string | null): Attention => ({
    mut: one.mut,
    mutation: bare(one),
    error,
    because_of,
    since: at,
  });
  const dependants = queue.filter((one) => one.state === "waiting" && dependsOn(one, refused, queue));
  return [entry(refused, null), ...dependants.map((one) => entry(one, refused.mut))];
}

/** An edit needs the revision it started from, and so on back; everything in a book needs the book. */
function dependsOn(one: Queued, refused: Queued, queue: readonly Queued[]): boolean {
  if (!buildsOn(one, refused)) return false;
  if (refused.base_rev === null) return true;
  for (let rev = one.base_rev; rev !== null; ) {
    if (rev === refused.mut) return true;
    rev = queue.find((other) => other.mut === rev)?.base_rev ?? null;
  }
  return false;
}

/** Everything of a book that this user may no longer write to, out of the outbox and before a person. */
export function withdrawn(queue: readonly Queued[], error: Refusal, at: string): Attention[] {
  return inOrder(queue)
    .filter((one) => one.state === "waiting")
    .map((one) => ({ mut: one.mut, mutation: bare(one), error, because_of: null, since: at }));
}

export interface Mending {
  readonly refused: Attention;
  /** Those that were put aside because of it. */
  readonly dependants: readonly Attention[];
  readonly body: Mutation["body"];
  /** The revision that the mended edit starts from; null for a new record. */
  readonly base_rev: string | null;
  readonly new_mut: string;
  readonly first_seq: number;
}

/** The mended mutation under a new name, and behind it those that were waiting for it. */
export function mend({ refused, dependants, body, base_rev, new_mut, first_seq }: Mending): Mutation[] {
  const mended = { ...refused.mutation, mut: new_mut, body, base_rev, device_seq: first_seq };
  const followers = dependants
    .map((one) => one.mutation)
    .sort((a, b) => a.device_seq - b.device_seq)
    .map((one, index) => ({
      ...one,
      base_rev: one.base_rev === refused.mut ? new_mut : one.base_rev,
      device_seq: first_seq + 1 + index,
    }));
  return [mended, ...followers];
}

/** The mutations of a queue in the order of recording. */
export function inOrder<T extends Mutation>(queue: readonly T[]): T[] {
  return [...queue].sort((a, b) => a.device_seq - b.device_seq);
}

/** Kept mutations whose version will not come back: their book's news has been read to the end without them. */
export function returned(queue: readonly Queued[], pulled: readonly Version[], ended: boolean): string[] {
  const revs = new Set(pulled.map((version) => version.rev));
  return queue.filter((one) => revs.has(one.mut) || (one.state === "kept" && ended)).map((one) => one.mut);
}

function bare({ state: _, ...mutation }: Queued): Mutation {
  return mutation;
}
