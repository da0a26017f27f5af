/** Everything below the screens, wired: who is signed in, and the services of that user. */
import { type ReadonlySignal, signal } from "@preact/signals";
import { openDeviceStore } from "../store";
import type { Environment } from "./environment";
import { createForms, type Forms } from "./forms";
import type { Install } from "./install";
import type { Persist } from "./persist";
import { type Account, createSession, type Session, type SignIn } from "./session";
import type { Solver } from "./solver";
import type { Transport } from "./transport";
import type { Updates } from "./updates";
import { openUser, type UserServices } from "./user";

export interface App {
  /** Null when nobody is signed in here, undefined until that is known. */
  readonly user: ReadonlySignal<UserServices | null | undefined>;
  readonly forms: Forms;
  readonly install: Install;
  readonly persist: Persist;
  readonly updates: Updates;
  readonly environment: Environment;
  readonly solver: Solver;
  readonly start: () => Promise<void>;
  readonly signUp: (name: string, password: string) => Promise<SignIn>;
  readonly signIn: (name: string, password: string) => Promise<SignIn>;
  /** False when the server could not be reached; then nothing has changed. */
  readonly signOut: () => Promise<boolean>;
}

export interface AppParts {
  readonly environment: Environment;
  readonly transport: Transport;
  readonly forms?: Forms;
  readonly install: Install;
  readonly persist: Persist;
  readonly updates: Updates;
  readonly solver: Solver;
}

export function createApp(parts: AppParts): App {
  const { environment, transport, persist, updates, forms = createForms() } = parts;
  const events = updates.storeEvents;
  const device = openDeviceStore(environment.engine, events);
  const session = createSession({ device, transport, locks: environment.locks });
  const user = signal<UserServices | null | undefined>(undefined);
  const open = (account: Account) => openUser({ account, environment, transport, session, persist, events });
  return {
    user,
    forms,
    install: parts.install,
    persist,
    updates,
    environment,
    solver: parts.solver,
    async start() {
      session.account.subscribe((account) => follow(account, user, open));
      await session.start();
    },
    signUp: (name, password) => enter(session.signUp(name, password), user),
    signIn: (name, password) => enter(session.signIn(name, password), user),
    async signOut() {
      const leaving = user.peek();
      if (!leaving) return true;
      if (!(await session.signOut(leaving.account))) return false;
      await leaving.forget();
      return true;
    },
  };
}

type UserSignal = ReturnType<typeof signal<UserServices | null | undefined>>;

/** Another account, here or in another tab: close the one database and open the other. */
function follow(
  account: Session["account"]["value"],
  user: UserSignal,
  open: (account: Account) => UserServices,
): void {
  const before = user.peek();
  if (account && before?.account.id === account.id) return;
  before?.close();
  const next = account ? open(account) : account;
  next?.sync.start();
  user.value = next;
}

/** The same person signed in again: what was waiting for that can go. */
async function enter(entering: Promise<SignIn>, user: UserSignal): Promise<SignIn> {
  const result = await entering;
  if (result.kind === "ok") void user.peek()?.sync.wake();
  return result;
}
