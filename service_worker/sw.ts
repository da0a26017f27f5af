/** Keeps the shell on the phone and opens it without signal. It holds no data and sends nothing. */
import { PrecacheController, type PrecacheEntry } from "workbox-precaching";
import { TAKE_OVER } from "./messages";
import { answerFor } from "./routes";

declare const self: ServiceWorkerGlobalScope & {
  __WB_MANIFEST: PrecacheEntry[];
  __LATER: readonly string[];
  __BUILD: string;
};

const SHELL = "/index.html";
const PREFIX = "tareway-shell-";
const CACHE = PREFIX + self.__BUILD;
const shell = new PrecacheController({ cacheName: CACHE });
shell.addToCacheList(self.__WB_MANIFEST);

// The new worker waits until somebody asks for it: a reload under a half-filled form is never forced.
self.addEventListener("install", (event) =>
  event.waitUntil(shell.install(event).then(() => void keepRest())),
);

self.addEventListener("activate", (event) => {
  event.waitUntil(dropOldShells().then(() => self.clients.claim()));
});

self.addEventListener("message", (event) => {
  if (event.data?.type === TAKE_OVER) event.waitUntil(self.skipWaiting());
});

self.addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  const answer = answerFor({ method, mode, url, origin: self.location.origin }, kept);
  if (answer === "shell") {
    event.respondWith(fromShell(SHELL));
    event.waitUntil(keepRest());
  }
  if (answer === "file") event.respondWith(fromShell(new URL(url).pathname));
});

function kept(path: string): boolean {
  return shell.getCacheKeyForURL(path) !== undefined;
}

async function fromShell(path: string): Promise<Response> {
  const found = (await shell.matchPrecache(path)) ?? (await caches.match(path));
  return found ?? fetch(path);
}

/** The pages of the desk come after the shell; what did not arrive is asked for again with the next page. */
let rest: Promise<void> | null = null;
function keepRest(): Promise<void> {
  rest ??= fetchRest().catch(() => {
    rest = null;
  });
  return rest;
}

async function fetchRest(): Promise<void> {
  const cache = await caches.open(CACHE);
  await Promise.all(self.__LATER.map(async (url) => (await cache.match(url)) ?? cache.add(url)));
}

/** The shell before this one stays, for tabs that still run it; older ones go. */
async function dropOldShells(): Promise<void> {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX));
  const old = names.filter((name) => name !== CACHE);
  await Promise.all(old.slice(0, -1).map((name) => caches.delete(name)));
}
