/** Who shares a book. Needs the server: a right is given there and nowhere else. */
import type { Member, Role } from "../sync/mutation";
import { type ApiError, has, type Transport } from "./transport";

export type Sharing =
  | { readonly kind: "ok"; readonly members: readonly Member[] }
  | { readonly kind: "refused"; readonly error: ApiError }
  | { readonly kind: "unreachable" };

export interface Members {
  readonly list: (book: string) => Promise<Sharing>;
  readonly add: (book: string, name: string, role: Role) => Promise<Sharing>;
  readonly remove: (book: string, user: string) => Promise<Sharing>;
}

export function createMembers(transport: Transport): Members {
  const list = async (book: string): Promise<Sharing> => {
    const reply = await transport({ method: "GET", path: `/api/books/${book}/members`, expect: isMembers });
    if (reply.kind === "answer") return { kind: "ok", members: reply.body.members };
    return reply.kind === "refused" ? { kind: "refused", error: reply.error } : { kind: "unreachable" };
  };
  const then = async (book: string, asking: { method: "POST" | "DELETE"; path: string; body?: unknown }) => {
    const path = `/api/books/${book}/members${asking.path}` as const;
    const reply = await transport({ ...asking, path, expect: isAnything });
    if (reply.kind === "answer") return list(book);
    const refused: Sharing =
      reply.kind === "refused" ? { kind: "refused", error: reply.error } : { kind: "unreachable" };
    return refused;
  };
  return {
    list,
    add: (book, name, role) => then(book, { method: "POST", path: "", body: { name, role } }),
    remove: (book, user) => then(book, { method: "DELETE", path: `/${user}` }),
  };
}

function isMembers(body: unknown): body is { members: Member[] } {
  return has(body, "members") && Array.isArray(body.members);
}

function isAnything(_: unknown): _ is unknown {
  return true;
}
