/** A browser without a window: its storage, its clock and its timers in the hands of the test. */
import { IDBFactory, IDBKeyRange, IDBObjectStore } from "fake-indexeddb";
import { vi } from "vitest";
import { advise } from "@/domain/advice";
import { type App, createApp } from "@/services/app";
import type { Environment } from "@/services/environment";
import { createForms } from "@/services/forms";
import { createInstall } from "@/services/install";
import { createPersist } from "@/services/persist";
import type { Solver } from "@/services/solver";
import { createTransport } from "@/services/transport";
import { createUpdates } from "@/services/updates";
import type { UserServices } from "@/services/user";
import { type FakeServer, Network } from "./fake_server";

export class Browser {
  readonly engine = { indexedDB: new IDBFactory() as unknown as globalThis.IDBFactory, IDBKeyRange };
  readonly network: Network;
  readonly timers: { ms: number; then: () => void; off: boolean }[] = [];
  readonly reported: unknown[] = [];
  readonly locks = new Locks();
  readonly wakes: (() => void)[] = [];
  online = true;
  now = Date.parse("2026-03-04T05:06:07.000Z");

  constructor(server: FakeServer) {
    this.network = new Network(server);
  }

  /** A tab of this browser: all tabs share the storage, the cookie and the locks. */
  async tab(): Promise<App> {
    const environment = this.environment();
    const forms = createForms();
    const updates = createUpdates({
      workers: null,
      trusted: (url) => url,
      forms,
      reload: () => {},
      environment,
    });
    const install = createInstall(null);
    const transport = createTransport(this.network.send);
    const solver: Solver = async (problem, told) => advise(problem, told);
    const persist = createPersist(null);
    const app = createApp({ environment, transport, forms, install, persist, updates, solver });
    await app.start();
    return app;
  }

  async signedIn(name: string): Promise<UserServices> {
    const app = await this.tab();
    await app.signIn(name, "long enough");
    return user(app);
  }

  /** Let timers that are due within this time go off. */
  elapse(ms: number): void {
    this.now += ms;
    for (const timer of this.timers.splice(0)) {
      if (!timer.off && timer.ms <= ms) timer.then();
      else if (!timer.off) this.timers.push({ ...timer, ms: timer.ms - ms });
    }
  }

  private environment(): Environment {
    return {
      nowMs: () => this.now,
      utcOffsetMin: () => 570,
      build: "1",
      zone: () => "Australia/Darwin",
      chance: () => 0.5,
      bytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
      engine: this.engine,
      after: (ms, then) => {
        const timer = { ms, then, off: false };
        this.timers.push(timer);
        return () => {
          timer.off = true;
        };
      },
      locks: this.locks as unknown as LockManager,
      online: () => this.online,
      report: (error) => this.reported.push(error),
      onReturn: (wake) => {
        this.wakes.push(wake);
        return () => {};
      },
    };
  }
}

/** One holder at a time, the others in a row. */
class Locks {
  private last: Promise<unknown> = Promise.resolve();

  request(_name: string, _options: unknown, work: () => Promise<unknown>): Promise<unknown> {
    const next = this.last.then(work);
    this.last = next.catch(() => {});
    return next;
  }
}

export function user(app: App): UserServices {
  if (!app.user.value) throw new Error("nobody is signed in");
  return app.user.value;
}

const WAITING = { timeout: 10_000, interval: 5 };

/** Wait until nothing of this browser is under way. */
export async function quiet({ sync, status }: UserServices): Promise<void> {
  await sync.wake();
  await vi.waitFor(() => {
    if (sync.phase.value === "sending" || status.line.value.kind === "reading") throw new Error("busy");
  }, WAITING);
}

export async function until(check: () => void): Promise<void> {
  await vi.waitFor(check, WAITING);
}

/** Let the nth write to the disk fail as a full disk does. */
export function failNth(nth: number) {
  const real = IDBObjectStore.prototype.put;
  let count = 0;
  return vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: unknown, ...args) {
    count += 1;
    if (count === nth) throw new DOMException("injected", "QuotaExceededError");
    return real.apply(this as never, args as never);
  });
}
