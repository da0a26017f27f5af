/** Sends and receives: when to, how often, and what the outcome was. What it does to the rows is in `answer`. */
import { type ReadonlySignal, signal } from "@preact/signals";
import type { UserStore } from "../store";
import { queueFront } from "../store/rows";
import { StorageTrouble } from "../store/trouble";
import { delayMs } from "../sync/backoff";
import { MUTATIONS_AT_ONCE, type Mutation, type SyncAnswer, type SyncRequest } from "../sync/mutation";
import { chooseBatch } from "../sync/outbox";
import { takeAnswer } from "./answer";
import type { Environment } from "./environment";
import { heardSince, marks } from "./heard";
import { alone, SENDING } from "./locks";
import type { Account, Session } from "./session";
import { has, type Reply, type Transport } from "./transport";

export type Phase =
  /** Nothing is going on. */
  | "rest"
  | "sending"
  /** The last try failed; there will be another. */
  | "retry"
  /** Somebody must sign in before anything can be sent. */
  | "sign_in"
  /** The server no longer understands this version of the app. */
  | "too_old";

export interface Sync {
  readonly phase: ReadonlySignal<Phase>;
  readonly start: () => void;
  readonly stop: () => void;
  /** Something is to be sent, or may be there to be fetched. Resolves when that has been tried. */
  readonly wake: () => Promise<void>;
}

export interface SyncParts {
  readonly store: UserStore;
  readonly account: Account;
  readonly device: () => Promise<string>;
  readonly session: Pick<Session, "holder" | "learn">;
  readonly transport: Transport;
  readonly environment: Pick<
    Environment,
    "nowMs" | "chance" | "after" | "locks" | "online" | "onReturn" | "report"
  >;
}

type Round =
  | { readonly kind: "done"; readonly left: number }
  | { readonly kind: "failed"; readonly retry_after_s: number | null }
  | { readonly kind: "sign_in" }
  | { readonly kind: "too_old" };

export function createSync(parts: SyncParts): Sync {
  const { environment } = parts;
  const engine = createEngine(parts);
  let unsubscribe = () => {};
  return {
    phase: engine.phase,
    start: () => {
      unsubscribe = environment.onReturn(() => {
        engine.forgive();
        void engine.wake();
      });
      void engine.wake();
    },
    stop: () => {
      engine.stop();
      unsubscribe();
    },
    wake: engine.wake,
  };
}

interface Engine extends Pick<Sync, "phase" | "wake" | "stop"> {
  /** What failed before no longer lengthens the wait. */
  readonly forgive: () => void;
}

function createEngine(parts: SyncParts): Engine {
  const { environment } = parts;
  const phase = signal<Phase>("rest");
  let stopped = false;
  let failures = 0;
  let callOff = () => {};
  let wanted: Promise<void> | null = null;

  const again = (asked_s: number | null) => {
    failures += 1;
    phase.value = "retry";
    const wait_ms = delayMs({ failures, chance: environment.chance(), asked_s });
    callOff = environment.after(wait_ms, () => void wake());
  };
  const after = async (round: Round) => {
    if (stopped) return;
    const done = round.kind === "done" && round.left === 0;
    if (round.kind === "sign_in" || round.kind === "too_old") phase.value = round.kind;
    else if (done) {
      failures = 0;
      phase.value = "rest";
    } else if (
      round.kind === "done" ||
      (await hasUnsent(parts.store)) ||
      worthRetrying(failures, environment)
    ) {
      again(round.kind === "failed" ? round.retry_after_s : null);
    } else phase.value = "rest";
  };
  const run = async () => {
    await alone(environment.locks, SENDING, async () => {
      wanted = null; // whatever is saved from here on needs another round
      callOff();
      if (stopped) return;
      phase.value = "sending";
      await after(await syncRound(parts, () => stopped));
    }).catch((error) => {
      if (!(error instanceof StorageTrouble)) environment.report(error);
      if (!stopped) again(null);
    });
  };
  const wake = () => {
    if (stopped) return Promise.resolve();
    wanted ??= run();
    return wanted;
  };
  const stop = () => {
    stopped = true;
    callOff();
  };
  const forgive = () => {
    failures = 0;
  };
  return { phase, wake, stop, forgive };
}

const FAILED: Round = { kind: "failed", retry_after_s: null };
const TRIES_TO_FETCH = 5;

/** With nothing to send a few tries are enough: the next return of page or network asks again. */
function worthRetrying(failures: number, { online }: Pick<Environment, "online">): boolean {
  return online() && failures < TRIES_TO_FETCH;
}

async function hasUnsent(store: UserStore): Promise<boolean> {
  return store.read(async (tables) => (await tables.outbox.where("state").equals("waiting").count()) > 0);
}

/** What a round has learned of what may be sent in it. */
interface RoundMemory {
  readonly held: Set<string>;
  limit: number;
  /** Fetch before sending: the server was restored, and may have most of it. */
  fetchFirst: boolean;
  singles: number;
}

/** Requests until nothing is left to send and no book has more news. */
async function syncRound(parts: SyncParts, stopped: () => boolean): Promise<Round> {
  const memory: RoundMemory = { held: new Set(), limit: MUTATIONS_AT_ONCE, fetchFirst: false, singles: 0 };
  for (let more = true; ; ) {
    const holder = await parts.session.holder();
    if (holder === undefined || stopped()) return FAILED;
    if (holder !== parts.account.id) return { kind: "sign_in" };
    const request = await nextRequest(parts, memory);
    if (!more && request.mutations.length === 0) break;
    const reply = await parts.transport({
      method: "POST",
      path: "/api/sync",
      body: request,
      timeout_ms: 60_000,
      expect: (body): body is SyncAnswer => isSyncAnswer(body, request),
    });
    if (reply.kind !== "answer") {
      const round = await afterFailure(reply, request.mutations, memory, parts);
      if (round !== "go on") return round;
      continue;
    }
    if (reply.body.user.id !== parts.account.id) {
      await parts.session.learn(reply.body.user.id);
      return { kind: "sign_in" };
    }
    more = await apply(parts, named(reply.body, request), memory);
    // a book that has just come is named once, so that others learn that this device has it and holds nothing back
    more ||= reply.body.books.some(({ book }) => !request.books.some((one) => one.book === book));
  }
  return { kind: "done", left: memory.held.size };
}

async function apply(parts: SyncParts, answer: SyncAnswer, memory: RoundMemory): Promise<boolean> {
  const here = { user: parts.account.id, device: await parts.device(), now_ms: parts.environment.nowMs() };
  const { held, more, restored } = await parts.store.change((tables) => takeAnswer(tables, answer, here));
  for (const mut of held) memory.held.add(mut);
  memory.fetchFirst = more && (restored || memory.fetchFirst);
  memory.limit = MUTATIONS_AT_ONCE;
  return more;
}

async function nextRequest({ store, device }: SyncParts, memory: RoundMemory): Promise<SyncRequest> {
  const name = await device();
  return store.read(async (tables) => {
    const front = memory.fetchFirst ? [] : await queueFront(tables, memory.held.size + 2 * MUTATIONS_AT_ONCE);
    let mutations = chooseBatch({ queue: front, held: memory.held, limit: memory.limit });
    // behind a long row of entries that build on held ones there may be others
    if (mutations.length === 0 && front.length >= memory.held.size + 2 * MUTATIONS_AT_ONCE) {
      const queue = await tables.outbox.toArray();
      mutations = chooseBatch({ queue, held: memory.held, limit: memory.limit });
    }
    const books = await marks(tables, mutations);
    return { device: name, mutations, books, ...(await heardSince(tables)) };
  });
}

/** A request as a whole was refused for what is in it. */
const FOR_ITS_CONTENT = [400, 413, 422, 500];
const SINGLES_AT_MOST = 3;

/**
 * A refused request is sent again in halves, down to the one mutation that does it: that one stays in the outbox
 * and is left out of this round, so that it stops only itself.
 */
async function afterFailure(
  reply: Exclude<Reply<SyncAnswer>, { kind: "answer" }>,
  sent: readonly Mutation[],
  memory: RoundMemory,
  { session }: SyncParts,
): Promise<Round | "go on"> {
  if (reply.kind === "none") return FAILED;
  const { status } = reply.error;
  if (status === 401) {
    await session.learn(undefined);
    return { kind: "sign_in" };
  }
  if (status === 426) return { kind: "too_old" };
  if (!FOR_ITS_CONTENT.includes(status) || sent.length === 0)
    return { kind: "failed", retry_after_s: reply.retry_after_s };
  if (sent.length > 1) {
    memory.limit = Math.ceil(sent.length / 2);
    return "go on";
  }
  memory.singles += 1;
  memory.held.add((sent[0] as Mutation).mut);
  return memory.singles < SINGLES_AT_MOST ? "go on" : FAILED;
}

/** Answers come in order; one to a mutation that the server could not even name gets its name here. */
function named(answer: SyncAnswer, { mutations }: SyncRequest): SyncAnswer {
  const answers = answer.answers.map((one, index) => ({ ...one, mut: mutations[index]?.mut ?? null }));
  return { ...answer, answers };
}

function isSyncAnswer(body: unknown, request: SyncRequest): boolean {
  return (
    has(body, "user", "now", "generation", "answers", "books", "gone", "heard") &&
    has(body.user, "id", "name") &&
    typeof body.generation === "string" &&
    Array.isArray(body.answers) &&
    body.answers.length === request.mutations.length &&
    body.answers.every(
      (one, index) =>
        has(one, "mut", "outcome") && [null, request.mutations[index]?.mut].includes(one.mut as string),
    ) &&
    Array.isArray(body.books) &&
    body.books.every(
      (one) => has(one, "book", "checkpoint", "more", "versions") && Array.isArray(one.versions),
    ) &&
    Array.isArray(body.gone) &&
    Array.isArray(body.heard)
  );
}
