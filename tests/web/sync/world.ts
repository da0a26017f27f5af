/** A server and devices in one process, by the protocol's page: the bad days of sync are played on them. */
import { decide } from "@/sync/decide";
import { latestApplied } from "@/sync/fold";
import type { Answer, Mutation, SyncAnswer, SyncRequest, Version } from "@/sync/mutation";
import { type Attention, chooseBatch, type Queued, settle } from "@/sync/outbox";
import { pull, type Rows, refold, touched } from "@/sync/pull";

const NOW = "2026-03-04T06:00:00.000Z";
const PAGE = 3;

/** Keeps versions in order and decides as the protocol says; written for tests, with one book. */
export class ModelServer {
  readonly versions: Version[] = [];
  refuses = (_: Mutation) => false;

  answer(request: SyncRequest, user: string): SyncAnswer {
    const answers = request.mutations.map((one) => this.take(one, user, request.device));
    const from = request.books[0]?.checkpoint ?? 0;
    const news = this.versions.filter((one) => one.seq > from);
    const page = news.slice(0, PAGE);
    const checkpoint = page.at(-1)?.seq ?? from;
    const book = { book: "b", role: "owner" as const, members: [], checkpoint, versions: page };
    return {
      user: { id: user, name: user },
      now: NOW,
      generation: "g",
      answers,
      books: page.length > 0 ? [{ ...book, more: news.length > page.length }] : [],
      gone: [],
      heard: [],
    };
  }

  private take(mutation: Mutation, author: string, device: string): Answer {
    const { mut } = mutation;
    const own = this.versions.filter((one) => one.id === mutation.id);
    if (own.some((one) => one.rev === mut)) return { mut, outcome: "duplicate" };
    if (this.refuses(mutation)) return { mut, outcome: "rejected" };
    const base = own.find((one) => one.rev === mutation.base_rev) ?? null;
    const { outcome, version } = decide({ mutation, current: latestApplied(own), base, author, device });
    if (version !== null) this.versions.push({ ...version, seq: this.versions.length + 1, received_at: NOW });
    return { mut, outcome };
  }
}

/** A device's rows in memory; what the store does in a transaction happens here at once. */
export class ModelDevice {
  readonly outbox = new Map<string, Queued>();
  readonly attention = new Map<string, Attention>();
  readonly shown = new Map<string, Version>();
  readonly versions = new Map<string, Version>();
  readonly said = new Set<string>();
  checkpoint = 0;
  private seq = 0;
  private held = new Set<string>();

  constructor(
    readonly name: string,
    readonly user: string,
  ) {}

  save(kind: string, id: string, body: Mutation["body"]): string {
    this.seq += 1;
    const mut = `${this.name}-${this.seq}`;
    const base_rev = this.shown.get(id)?.rev ?? null;
    const said = { made_at: NOW, utc_offset_min: 0, device_seq: this.seq, schema: 1 };
    const one: Mutation = { mut, book: "b", kind, id, base_rev, body, ...said };
    this.outbox.set(mut, { ...one, state: "waiting" });
    this.show(id);
    this.said.add(mut);
    return mut;
  }

  request(limit = 2): SyncRequest {
    const mutations = chooseBatch({ queue: [...this.outbox.values()], held: this.held, limit });
    return { device: this.name, mutations, books: [{ book: "b", checkpoint: this.checkpoint }] };
  }

  nextRound(): void {
    this.held = new Set();
  }

  take(answer: SyncAnswer): void {
    const { kept, waiting, attention } = settle({
      queue: [...this.outbox.values()],
      answers: answer.answers,
      at: NOW,
    });
    for (const mut of kept) this.outbox.set(mut, { ...(this.outbox.get(mut) as Queued), state: "kept" });
    for (const mut of waiting) this.held.add(mut);
    for (const one of attention) {
      this.attention.set(one.mut, one);
      this.outbox.delete(one.mut);
      this.show(one.mutation.id);
    }
    const news = answer.books[0] ?? { versions: [], more: false, checkpoint: this.checkpoint };
    const queue = [...this.outbox.values()];
    const ids = new Set(touched(news, queue));
    const known = [...this.versions.values()].filter((one) => ids.has(one.id));
    const pulled = pull({ news, queue, known, author: this.user, device: this.name });
    this.put(pulled);
    for (const mut of pulled.returned) this.outbox.delete(mut);
    this.checkpoint = Math.max(this.checkpoint, news.checkpoint);
  }

  private show(id: string): void {
    const versions = [...this.versions.values()].filter((one) => one.id === id);
    const pending = [...this.outbox.values()].filter((one) => one.id === id);
    this.put(refold({ id, versions, pending, author: this.user, device: this.name }));
  }

  private put({ shown, removed, versions, dropped }: Rows): void {
    for (const { version } of shown) this.shown.set(version.id, version);
    for (const id of removed) this.shown.delete(id);
    for (const version of versions) this.versions.set(version.rev, version);
    for (const rev of dropped) this.versions.delete(rev);
  }
}
