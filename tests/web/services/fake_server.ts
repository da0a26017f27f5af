/** A server by the protocol's page, small enough to read, and a network to it that can be made bad. */
import { decide } from "@/sync/decide";
import { latestApplied } from "@/sync/fold";
import type {
  Answer,
  BookNews,
  HeardOf,
  Mutation,
  Role,
  SyncAnswer,
  SyncRequest,
  Version,
} from "@/sync/mutation";

const NOW = "2026-03-04T05:06:08.000Z";

interface Book {
  readonly versions: Version[];
  readonly roles: Map<string, Role>;
}

export class FakeServer {
  readonly books = new Map<string, Book>();
  readonly users = new Map<string, string>();
  readonly requests: SyncRequest[] = [];
  /** What it tells of other devices; the rules of it are tested at the real one. */
  readonly heard: HeardOf[] = [];
  generation = "g1";
  page = 1_000;
  now = NOW;
  stumbles: (request: SyncRequest) => boolean = () => false;
  refuses: (mutation: Mutation) => Answer["error"] | null = () => null;

  entries(kind?: string): Version[] {
    const all = [...this.books.values()].flatMap((book) => book.versions);
    return kind === undefined ? all : all.filter((one) => one.kind === kind);
  }

  enter(name: string): { id: string; name: string } {
    if (!this.users.has(name)) this.users.set(name, `user-${name}`);
    return { id: this.users.get(name) as string, name };
  }

  sync(request: SyncRequest, user: string): SyncAnswer {
    this.requests.push(request);
    const answers = request.mutations.map((one) => this.take(one, user, request.device));
    const marks = new Map(request.books.map((one) => [one.book, one.checkpoint]));
    const mine = [...this.books].filter(([, book]) => book.roles.has(user));
    const gone = [...marks.keys()].filter((id) => !mine.some(([one]) => one === id));
    const news = mine.flatMap(([id, book]) => this.news(id, book, marks.get(id) ?? 0, user));
    const name = [...this.users].find(([, id]) => id === user)?.[0] ?? "?";
    return {
      user: { id: user, name },
      now: this.now,
      generation: this.generation,
      answers,
      books: news,
      gone,
      heard: this.heard.filter((one) => one.device !== request.device),
    };
  }

  private news(id: string, { versions, roles }: Book, from: number, user: string): BookNews[] {
    const later = versions.filter((one) => one.seq > from);
    if (later.length === 0) return [];
    const page = later.slice(0, this.page);
    const members = [...roles].map(([member, role]) => ({ user: member, name: member, role }));
    const more = later.length > page.length;
    const checkpoint = page.at(-1)?.seq as number;
    return [{ book: id, role: roles.get(user) as Role, checkpoint, more, members, versions: page }];
  }

  private take(mutation: Mutation, author: string, device: string): Answer {
    const { mut, id } = mutation;
    const refusal = this.refuses(mutation);
    if (refusal) return { mut, outcome: "rejected", error: refusal };
    const book = this.bookFor(mutation, author);
    if (book === null) return { mut, outcome: "rejected", error: { code: "gone", message: "", fields: {} } };
    const own = book.versions.filter((one) => one.id === id);
    if (own.some((one) => one.rev === mut)) return { mut, outcome: "duplicate" };
    const base = own.find((one) => one.rev === mutation.base_rev) ?? null;
    const { outcome, version } = decide({ mutation, current: latestApplied(own), base, author, device });
    if (version) book.versions.push({ ...version, seq: book.versions.length + 1, received_at: NOW });
    return { mut, outcome };
  }

  private bookFor({ book: id, kind }: Mutation, user: string): Book | null {
    const known = this.books.get(id);
    if (known) return known.roles.has(user) ? known : null;
    if (kind !== "vehicle") return null;
    const made = { versions: [], roles: new Map([[user, "owner" as Role]]) };
    this.books.set(id, made);
    return made;
  }
}

export type Fate = "arrives" | "request lost" | "answer lost" | "html" | number;

/** One browser's way to the server, with the cookie that all its tabs share. */
export class Network {
  cookie: string | null = null;
  readonly asked: string[] = [];
  fate: (path: string, method: string) => Fate = () => "arrives";

  constructor(readonly server: FakeServer) {}

  readonly send = async (input: RequestInfo | URL, init?: RequestInit): Promise<Response> => {
    const path = String(input);
    const method = init?.method ?? "GET";
    this.asked.push(`${method} ${path}`);
    const fate = this.fate(path, method);
    if (fate === "request lost") throw new TypeError("network");
    if (fate === "html")
      return new Response("<html>sign in to this network</html>", { status: 200, headers: HTML });
    if (typeof fate === "number") return refusal(fate);
    const response = this.answer(path, method, init?.body ? JSON.parse(init.body as string) : null);
    if (fate === "answer lost") throw new TypeError("network");
    return response;
  };

  private answer(path: string, method: string, body: unknown): Response {
    if (method === "POST" && path !== "/api/sync") {
      const { name, password } = body as { name: string; password: string };
      if (password === "wrong") return refusal(401);
      const user = this.server.enter(name);
      this.cookie = user.id;
      return json({ user, ends_at: NOW });
    }
    if (this.cookie === null) return refusal(401);
    if (path === "/api/sync") {
      const request = body as SyncRequest;
      return this.server.stumbles(request) ? refusal(500) : json(this.server.sync(request, this.cookie));
    }
    if (method === "DELETE") {
      this.cookie = null;
      return new Response(null, { status: 204 });
    }
    return json({ user: { id: this.cookie, name: this.cookie }, ends_at: NOW });
  }
}

const HTML = { "Content-Type": "text/html" };

function json(body: unknown, status = 200): Response {
  return new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json" } });
}

function refusal(status: number): Response {
  return json({ code: `c${status}`, message: "No.", status, fields: {} }, status);
}
