/** Who is signed in on this device. Signed in once, the app opens without asking and without signal. */
import { type ReadonlySignal, signal } from "@preact/signals";
import type { DeviceStore } from "../store";
import type { AccountRow } from "../store/tables";
import type { Environment } from "./environment";
import { alone, SENDING } from "./locks";
import { type ApiError, has, type Reply, type Transport } from "./transport";

export type Account = AccountRow;

export type SignIn =
  | { readonly kind: "ok"; readonly account: Account }
  | { readonly kind: "refused"; readonly error: ApiError }
  | { readonly kind: "unreachable" };

/** Whose cookie: a user's id, null for nobody's, undefined when it could not be found out. */
export type Holder = string | null | undefined;

export interface Session {
  /** Whose book is open here; null when nobody's is, undefined until that is known. */
  readonly account: ReadonlySignal<Account | null | undefined>;
  readonly start: () => Promise<void>;
  readonly signUp: (name: string, password: string) => Promise<SignIn>;
  readonly signIn: (name: string, password: string) => Promise<SignIn>;
  /** Ends the session at the server, then forgets the account here. Does nothing without the server. */
  readonly signOut: (account: Account) => Promise<boolean>;
  /** Whose cookie this browser has; asks the server if that is in doubt. */
  readonly holder: () => Promise<Holder>;
  /** What the server has just said of whose cookie it is; undefined leaves it in doubt. */
  readonly learn: (user: string | undefined) => Promise<void>;
}

interface Parts {
  readonly device: DeviceStore;
  readonly transport: Transport;
  readonly locks: Environment["locks"];
}

export function createSession({ device, transport, locks }: Parts): Session {
  const account = signal<Account | null | undefined>(undefined);
  const cookie = cookieMemory(device);
  const holder = () => askHolder(cookie, transport);
  const current = async () => {
    const [id, all] = await device.read(async (t) => [
      await t.meta.get("current"),
      await t.accounts.toArray(),
    ]);
    return all.find((one) => one.id === id?.value) ?? null;
  };
  const show = (next: Account | null) => {
    if (account.value === undefined || account.value?.id !== next?.id) account.value = next;
  };
  const enter = (path: "/api/accounts" | "/api/session") => (name: string, password: string) =>
    alone(locks, SENDING, async (): Promise<SignIn> => {
      const before = await cookie.read();
      // from here until the answer nobody can say whose cookie it is: an answer may be lost
      await cookie.write(undefined);
      const reply = await transport({ method: "POST", path, body: { name, password }, expect: isSession });
      if (reply.kind === "refused") await cookie.write(before);
      if (reply.kind !== "answer") return refusal(reply);
      const { id, name: said } = reply.body.user;
      await device.change(async (tables) => {
        await tables.accounts.put({ id, name: said });
        await tables.meta.bulkPut([
          { key: "current", value: id },
          { key: "cookie", value: id },
        ]);
      });
      show({ id, name: said });
      return { kind: "ok", account: { id, name: said } };
    });
  return {
    account,
    async start() {
      show(await current());
      device.watch(
        (tables) => tables.meta.get("current"),
        () => void current().then(show),
      );
    },
    signUp: enter("/api/accounts"),
    signIn: enter("/api/session"),
    signOut: (who) => alone(locks, SENDING, () => leave({ who, device, transport, holder, show })),
    holder,
    learn: cookie.write,
  };
}

interface Leaving {
  readonly who: Account;
  readonly device: DeviceStore;
  readonly transport: Transport;
  readonly holder: Session["holder"];
  readonly show: (next: null) => void;
}

async function leave({ who, device, transport, holder, show }: Leaving): Promise<boolean> {
  const whose = await holder();
  if (whose === undefined) return false;
  if (whose === who.id) {
    const reply = await transport({ method: "DELETE", path: "/api/session", expect: isAnything });
    if (reply.kind === "none" || (reply.kind === "refused" && reply.error.status !== 401)) return false;
  }
  await device.change(async (tables) => {
    await tables.accounts.delete(who.id);
    await tables.meta.bulkDelete(["current", "cookie"]);
  });
  show(null);
  return true;
}

interface CookieMemory {
  readonly read: () => Promise<string | undefined>;
  readonly write: (user: string | undefined) => Promise<void>;
}

/** The cookie itself cannot be read; this remembers whose it was when the server last said so. */
function cookieMemory(device: DeviceStore): CookieMemory {
  return {
    read: () => device.read(async (tables) => (await tables.meta.get("cookie"))?.value as string | undefined),
    write: (user) =>
      device.change(async (tables) => {
        if (user !== undefined) await tables.meta.put({ key: "cookie", value: user });
        else await tables.meta.delete("cookie");
      }),
  };
}

async function askHolder(cookie: CookieMemory, transport: Transport): Promise<Holder> {
  const known = await cookie.read();
  if (known !== undefined) return known;
  const reply = await transport({ method: "GET", path: "/api/session", expect: isSession });
  if (reply.kind === "answer") {
    await cookie.write(reply.body.user.id);
    return reply.body.user.id;
  }
  return reply.kind === "refused" && reply.error.status === 401 ? null : undefined;
}

function refusal(reply: Exclude<Reply<unknown>, { kind: "answer" }>): SignIn {
  return reply.kind === "refused" ? { kind: "refused", error: reply.error } : { kind: "unreachable" };
}

function isSession(body: unknown): body is { user: Account } {
  return has(body, "user") && has(body.user, "id", "name") && typeof body.user.id === "string";
}

function isAnything(_: unknown): _ is unknown {
  return true;
}
