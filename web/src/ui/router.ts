/** Where the user is: the browser's own history, one screen at a time, loaded when it is needed. */
import { type ReadonlySignal, signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { NotYetHere } from "./parts/not_yet_here";
import { match, type Params, type Route } from "./routes";

export interface Shown {
  readonly path: string;
  readonly Screen: ComponentType<Params>;
  readonly params: Params;
  /** Somebody went here by a link or a key, so that the page's title takes the focus. */
  readonly arrived: boolean;
}

export type Found = Shown | { readonly path: string; readonly Screen: null; readonly arrived: boolean };

export interface Router {
  /** What is on the screen; null until the first one has been loaded. */
  readonly shown: ReadonlySignal<Found | null>;
  readonly go: (path: string, options?: { readonly replace?: boolean }) => void;
  readonly start: () => void;
}

export interface RouterParts {
  readonly page: Pick<Window, "history" | "location" | "addEventListener" | "scrollTo">;
  readonly routes: readonly Route[];
  /** This page's code has been replaced by a newer version. */
  readonly stale: () => boolean;
}

export function createRouter({ page, routes, stale }: RouterParts): Router {
  const shown = signal<Found | null>(null);
  let turn = 0;
  const show = async (arrived: boolean) => {
    turn += 1;
    const mine = turn;
    const at = page.location.pathname;
    const found = match(at, routes);
    if (found === null) {
      shown.value = { path: at, Screen: null, arrived };
      return;
    }
    const loaded = await load(found.route).catch(() => null);
    if (mine !== turn) return;
    // a file of an older version may be gone from server and phone: the page as a whole is loaded anew
    if (loaded === null && arrived) return page.location.assign(at);
    shown.value = { path: at, Screen: loaded ?? NotYetHere, params: found.params, arrived };
    if (arrived) page.scrollTo(0, 0);
  };
  // nothing has to be asked before a page is left: what was typed there is kept as a draft
  const go: Router["go"] = (to, { replace = false } = {}) => {
    if (to === page.location.pathname) return;
    if (stale()) return page.location.assign(to);
    if (replace) page.history.replaceState(null, "", to);
    else page.history.pushState(null, "", to);
    void show(true);
  };
  return {
    shown,
    go,
    start: () => {
      page.addEventListener("popstate", () => void show(true));
      void show(false);
    },
  };
}

async function load(route: Route): Promise<ComponentType<Params>> {
  const { default: screen } = await route.load();
  return screen;
}
