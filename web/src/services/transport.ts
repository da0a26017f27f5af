/** The only place that talks to the server. What is not surely the server's own answer is no answer. */

export interface ApiError {
  readonly code: string;
  readonly message: string;
  readonly status: number;
  readonly fields: Readonly<Record<string, readonly string[]>>;
}

export type Reply<T> =
  | { readonly kind: "answer"; readonly body: T }
  | { readonly kind: "refused"; readonly error: ApiError; readonly retry_after_s: number | null }
  | { readonly kind: "none"; readonly why: "unreachable" | "not_ours" };

export interface Asking<T> {
  readonly method: "GET" | "POST" | "DELETE";
  readonly path: `/api/${string}`;
  readonly body?: unknown;
  readonly timeout_ms?: number;
  /** Whether what came back has the shape that was asked for. */
  readonly expect: (body: unknown) => body is T;
}

export type Transport = <T>(asking: Asking<T>) => Promise<Reply<T>>;

const TIMEOUT_MS = 30_000;

export function createTransport(send: typeof fetch = (input, init) => fetch(input, init)): Transport {
  return async <T>(asking: Asking<T>): Promise<Reply<T>> => {
    try {
      return await understood(await send(asking.path, request(asking)), asking.expect);
    } catch {
      return { kind: "none", why: "unreachable" };
    }
  };
}

function request({ method, body, timeout_ms = TIMEOUT_MS }: Asking<unknown>): RequestInit {
  return {
    method,
    // a custom header cannot be sent from another site without being asked first
    headers: { Accept: "application/json", "Content-Type": "application/json", "X-Tareway": "1" },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    cache: "no-store",
    credentials: "same-origin",
    redirect: "error",
    signal: AbortSignal.timeout(timeout_ms),
  };
}

/** A sign-in page of some network answers 200 with HTML: neither an answer nor a refusal of ours. */
async function understood<T>(response: Response, expect: Asking<T>["expect"]): Promise<Reply<T>> {
  const body = response.status === 204 ? null : await json(response);
  if (response.ok && body !== NOT_JSON && expect(body)) return { kind: "answer", body };
  if (!response.ok && isApiError(body)) {
    return { kind: "refused", error: body, retry_after_s: seconds(response.headers.get("Retry-After")) };
  }
  return { kind: "none", why: "not_ours" };
}

const NOT_JSON = Symbol("not JSON");

async function json(response: Response): Promise<unknown> {
  const type = response.headers.get("Content-Type") ?? "";
  const text = await response.text();
  if (!/^application\/json\b/.test(type)) return NOT_JSON;
  try {
    return JSON.parse(text);
  } catch {
    return NOT_JSON;
  }
}

function seconds(header: string | null): number | null {
  return header !== null && /^\d{1,6}$/.test(header) ? Number(header) : null;
}

/** Whether something is an object with these names. */
export function has<Name extends string>(value: unknown, ...names: Name[]): value is Record<Name, unknown> {
  return typeof value === "object" && value !== null && names.every((name) => name in value);
}

function isApiError(body: unknown): body is ApiError {
  return has(body, "code", "message", "status", "fields") && typeof body.code === "string";
}
