/** The composition root: the only file that makes a real clock, real chance, real storage and a real page. */
import { render } from "preact";
import { createApp } from "./services/app";
import type { Environment } from "./services/environment";
import { createForms } from "./services/forms";
import { createInstall } from "./services/install";
import { createPersist } from "./services/persist";
import { createSolver, type Helper } from "./services/solver";
import { createTransport } from "./services/transport";
import { createUpdates } from "./services/updates";
import solverUrl from "./solver?worker&url";
import { App } from "./ui/app";
import { createRouter } from "./ui/router";
import { ROUTES } from "./ui/routes";

interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { createScriptURL: (url: string) => string },
  ): {
    createScriptURL: (url: string) => string;
  };
}

const environment: Environment = {
  nowMs: () => Date.now(),
  utcOffsetMin: () => -new Date().getTimezoneOffset(),
  // the name of a built file tells its content; in development the content changes under it
  build: import.meta.env.PROD ? import.meta.url : String(Date.now()),
  zone: () => Intl.DateTimeFormat().resolvedOptions().timeZone,
  chance: () => Math.random(),
  bytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
  engine: { indexedDB, IDBKeyRange },
  after: (delay_ms, then) => {
    const timer = setTimeout(then, delay_ms);
    return () => clearTimeout(timer);
  },
  locks: navigator.locks ?? null,
  online: () => navigator.onLine,
  report: reportError,
  onReturn,
};

/** The network is back, the page is seen again, or it comes out of the browser's memory. */
function onReturn(wake: () => void): () => void {
  const seen = () => {
    if (document.visibilityState === "visible") wake();
  };
  const shown = (event: PageTransitionEvent) => {
    if (event.persisted) wake();
  };
  window.addEventListener("online", wake);
  window.addEventListener("pageshow", shown);
  document.addEventListener("visibilitychange", seen);
  return () => {
    window.removeEventListener("online", wake);
    window.removeEventListener("pageshow", shown);
    document.removeEventListener("visibilitychange", seen);
  };
}

/** Where scripts must be trusted by name, the addresses of the two workers are. */
const { trustedTypes } = window as { trustedTypes?: TrustedTypes };
const policy = trustedTypes?.createPolicy("tareway", { createScriptURL: (one) => one });
const trusted = (url: string) => policy?.createScriptURL(url) ?? url;
const helper = () => new Worker(trusted(solverUrl), { type: "module" }) as Helper;

const forms = createForms();
const updates = createUpdates({
  workers: navigator.serviceWorker ?? null,
  trusted,
  forms,
  reload: () => location.reload(),
  environment,
});
const app = createApp({
  environment,
  forms,
  updates,
  transport: createTransport(),
  solver: createSolver(helper),
  install: createInstall(window),
  persist: createPersist(navigator.storage ?? null),
});
const router = createRouter({ page: window, routes: ROUTES, stale: () => updates.stale.peek() });
const device = matchMedia("(pointer: coarse)").matches ? "phone" : "computer";

render(<App app={app} router={router} device={device} />, document.querySelector("#app") as HTMLElement);
router.start();
void app.start();
// in development files change under the page, and a worker would keep the old ones
if (import.meta.env.PROD) void updates.start();
