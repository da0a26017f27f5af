/** A new version of the app: offered, never forced under something half typed. */
import { type ReadonlySignal, signal } from "@preact/signals";
import type { StoreEvents } from "../store";
import type { Environment } from "./environment";
import type { Forms } from "./forms";

/** What the service worker listens to; it has the same word in `service_worker/messages.ts`. */
export const TAKE_OVER = "take-over";
const WORKER = "/sw.js";
const LOOK_AGAIN_MS = 60 * 60_000;

export interface Updates {
  /** A new version is on the device and waits to be asked for. */
  readonly offered: ReadonlySignal<boolean>;
  /** Another tab let it take over while this one held something unsaved: this tab's next page is loaded anew. */
  readonly stale: ReadonlySignal<boolean>;
  readonly start: () => Promise<void>;
  readonly accept: () => void;
  /** A tab with an older version keeps this one from opening the database. */
  readonly blocked: ReadonlySignal<boolean>;
  readonly storeEvents: StoreEvents;
}

export interface UpdateParts {
  readonly workers: ServiceWorkerContainer | null;
  /** Makes a script's address that the browser trusts, where it asks for that. */
  readonly trusted: (url: string) => string;
  readonly forms: Forms;
  readonly reload: () => void;
  readonly environment: Pick<Environment, "nowMs" | "onReturn">;
}

export function createUpdates({ workers, trusted, forms, reload, environment }: UpdateParts): Updates {
  const offered = signal(false);
  const stale = signal(false);
  const blocked = signal(false);
  let registration: ServiceWorkerRegistration | null = null;
  const changed = () => {
    if (forms.dirty.value) stale.value = true;
    else reload();
  };
  return {
    offered,
    stale,
    blocked,
    storeEvents: {
      onOutdated: () => {
        stale.value = true;
      },
      onBlocked: (is) => {
        blocked.value = is;
      },
    },
    accept: () => registration?.waiting?.postMessage({ type: TAKE_OVER }),
    async start() {
      if (workers === null) return;
      // the first worker of all takes over a page that is as new as itself
      let first = workers.controller === null;
      workers.addEventListener("controllerchange", () => {
        if (!first) changed();
        first = false;
      });
      registration = await workers.register(trusted(WORKER), { scope: "/", updateViaCache: "none" });
      watch(registration, workers, () => {
        offered.value = true;
      });
      lookAgain(registration, environment);
    },
  };
}

function watch(
  registration: ServiceWorkerRegistration,
  workers: ServiceWorkerContainer,
  offer: () => void,
): void {
  const look = () => {
    if (registration.waiting !== null && workers.controller !== null) offer();
  };
  look();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", look);
  });
}

function lookAgain(
  registration: ServiceWorkerRegistration,
  { nowMs, onReturn }: UpdateParts["environment"],
): void {
  let last = nowMs();
  onReturn(() => {
    if (nowMs() - last < LOOK_AGAIN_MS) return;
    last = nowMs();
    registration.update().catch(() => {}); // without signal there is nothing newer to be had
  });
}
