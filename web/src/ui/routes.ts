/** Every page of the app: its path and the screen that draws it, loaded when it is first opened. */
import type { ComponentType } from "preact";

// biome-ignore lint/suspicious/noExplicitAny: each screen names the parts of its path that it needs
type Screen = ComponentType<any>;

export interface Route {
  readonly path: string;
  readonly load: () => Promise<{ readonly default: Screen }>;
  /** Also for somebody who has not signed in. */
  readonly open?: boolean;
}

/** A word after a colon is a parameter, handed to the screen as a property. */
export const ROUTES: readonly Route[] = [
  { path: "/", load: () => import("./screens/home") },
  { path: "/sign-in", load: () => import("./screens/sign_in"), open: true },
  { path: "/new", load: () => import("./screens/new_vehicle") },
  { path: "/device", load: () => import("./screens/device") },
  { path: "/weigh", load: () => import("./screens/shortcut/weigh") },
  { path: "/fuel", load: () => import("./screens/shortcut/fuel") },
  { path: "/desk", load: () => import("./screens/desk") },
  { path: "/b/:book", load: () => import("./screens/vehicle") },
  { path: "/b/:book/weigh", load: () => import("./screens/weigh") },
  { path: "/b/:book/weighing/:weighing", load: () => import("./screens/weighing") },
  { path: "/b/:book/fuel", load: () => import("./screens/fuel") },
  { path: "/b/:book/water", load: () => import("./screens/water") },
  { path: "/b/:book/road", load: () => import("./screens/road") },
  { path: "/b/:book/road/:route", load: () => import("./screens/road/route") },
  { path: "/b/:book/road/:route/edit", load: () => import("./screens/route_form") },
  { path: "/b/:book/plan", load: () => import("./screens/plan") },
  { path: "/b/:book/plan/:kind/:record", load: () => import("./screens/plan/record") },
  { path: "/b/:book/plan/:kind/:record/:field", load: () => import("./screens/plan/record") },
  { path: "/b/:book/import", load: () => import("./screens/import") },
  { path: "/b/:book/catalogue", load: () => import("./screens/catalogue") },
  { path: "/b/:book/catalogue/:article", load: () => import("./screens/catalogue/article") },
  { path: "/b/:book/plates", load: () => import("./screens/plates") },
  { path: "/b/:book/room", load: () => import("./screens/room") },
  { path: "/b/:book/compare", load: () => import("./screens/compare") },
  { path: "/b/:book/change", load: () => import("./screens/change") },
  { path: "/b/:book/change/:from", load: () => import("./screens/change") },
  { path: "/b/:book/log", load: () => import("./screens/log") },
  { path: "/b/:book/consumption", load: () => import("./screens/consumption") },
  { path: "/b/:book/odometer", load: () => import("./screens/odometer") },
  { path: "/b/:book/defaults/:holds", load: () => import("./screens/defaults") },
  { path: "/b/:book/defaults/:holds/:kind/:record/:field", load: () => import("./screens/plan/record") },
  { path: "/b/:book/breakdown", load: () => import("./screens/breakdown") },
  { path: "/b/:book/entry/:what", load: () => import("./screens/entry") },
  { path: "/b/:book/correct/:entry", load: () => import("./screens/correct") },
  { path: "/b/:book/before/:entry", load: () => import("./screens/correct/before") },
  { path: "/b/:book/members", load: () => import("./screens/members") },
];

export type Params = Readonly<Record<string, string>>;

export interface Match {
  readonly route: Route;
  readonly params: Params;
}

/** The route of a path, or null when there is none. */
export function match(path: string, routes: readonly Route[] = ROUTES): Match | null {
  const parts = split(path);
  for (const route of routes) {
    const wanted = split(route.path);
    if (wanted.length !== parts.length) continue;
    if (wanted.every((word, index) => word.startsWith(":") || word === parts[index])) {
      return { route, params: paramsOf(wanted, parts) };
    }
  }
  return null;
}

function split(path: string): string[] {
  return path.split("/").filter((part) => part !== "");
}

function paramsOf(wanted: readonly string[], parts: readonly string[]): Params {
  const pairs = wanted.map((word, index) => [word.slice(1), decoded(parts[index] as string)] as const);
  return Object.fromEntries(pairs.filter((_, index) => wanted[index]?.startsWith(":")));
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
