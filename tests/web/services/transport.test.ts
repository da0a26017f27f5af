import { describe, expect, it, vi } from "vitest";
import { createTransport, has } from "@/services/transport";

const json = (body: unknown, init: ResponseInit = {}) =>
  new Response(JSON.stringify(body), {
    ...init,
    headers: { "Content-Type": "application/json", ...init.headers },
  });
const asking = {
  method: "GET",
  path: "/api/health",
  expect: (body: unknown): body is object => has(body, "ok"),
} as const;

describe("transport", () => {
  const error = { code: "throttled", message: "Later.", status: 429, fields: {} };

  it.each<[string, () => Promise<Response>, object]>([
    ["an answer", async () => json({ ok: 1 }), { kind: "answer", body: { ok: 1 } }],
    [
      "a refusal",
      async () => json(error, { status: 429, headers: { "Retry-After": "7" } }),
      { kind: "refused", error, retry_after_s: 7 },
    ],
    ["200 with HTML", async () => new Response("<p>Welcome"), { kind: "none", why: "not_ours" }],
    ["200 with another shape", async () => json({ hello: 1 }), { kind: "none", why: "not_ours" }],
    [
      "an answer cut short",
      async () => new Response('{"ok"', { headers: { "Content-Type": "application/json" } }),
      { kind: "none", why: "not_ours" },
    ],
    [
      "401 of somebody else",
      async () => new Response("sign in", { status: 401 }),
      { kind: "none", why: "not_ours" },
    ],
    [
      "no network",
      async () => Promise.reject(new TypeError("network")),
      { kind: "none", why: "unreachable" },
    ],
  ])("%s", async (_, send, reply) => {
    expect(await createTransport(send)(asking)).toEqual(reply);
  });

  it("gives up after a time", async () => {
    const send = (_: unknown, init?: RequestInit) =>
      new Promise<Response>((_resolve, reject) =>
        init?.signal?.addEventListener("abort", () => reject(init.signal?.reason)),
      );
    expect(await createTransport(send)({ ...asking, timeout_ms: 5 })).toEqual({
      kind: "none",
      why: "unreachable",
    });
  });

  it("sends JSON with the header that no other site can send", async () => {
    const send = vi.fn(async () => json({ ok: 1 }));
    await createTransport(send)({ ...asking, method: "POST", body: { a: 1 } });
    const [, init] = send.mock.calls[0] as unknown as [string, RequestInit];
    expect(init.headers).toMatchObject({ "X-Tareway": "1", "Content-Type": "application/json" });
    expect(init).toMatchObject({ body: '{"a":1}', redirect: "error", cache: "no-store" });
  });
});
