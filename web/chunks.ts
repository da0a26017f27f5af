/**
 * Into which file of the build a module goes, by when it is first needed.
 *
 * Many small files pack badly, and the phone fetches all of them before it first goes offline. So there are few: what
 * the first page runs with the screens before a book is opened, the packages under it (they stay the same from one
 * version to the next), the mathematics, the screens of a book, and last those for which one sits down.
 */
import { fileURLToPath } from "node:url";

interface Graph {
  getModuleInfo(id: string): {
    readonly importedIds: readonly string[];
    readonly dynamicallyImportedIds: readonly string[];
  } | null;
}

const FIRST = ["main.tsx"];
const START = ["home", "sign_in"].map((screen) => `ui/screens/${screen}/index.tsx`);
/**
 * Their file is kept on the phone after the others, and never delays its going offline; what a page loads after itself
 * goes into it too, since no other page imports it. A new vehicle follows a sign-up, which needs signal; a route is
 * made by one of them, so that its own page comes with them, while what comes next on it stands on other pages.
 */
const DESK = [
  "catalogue",
  "compare",
  "consumption",
  "defaults",
  "desk",
  "import",
  "members",
  "new_vehicle",
  "odometer",
  "plan",
  "plates",
  "road",
  "room",
  "route_form",
];
const file = (path: string) => fileURLToPath(new URL(`./src/${path}`, import.meta.url));

/** A naming function for one build. */
export function byFirstUse(): (id: string, graph: Graph) => string | null {
  let first: ReadonlySet<string> | null = null;
  let start: ReadonlySet<string> | null = null;
  let road: ReadonlySet<string> | null = null;
  return (id, graph) => {
    first ??= reach(FIRST.map(file), graph);
    start ??= reach(START.map(file), graph);
    road ??= reach(onTheRoad(graph), graph);
    if (id.includes("/node_modules/")) return "packages";
    if (id.endsWith("/src/main.tsx") || id.endsWith(".html")) return null;
    if (first.has(id) || start.has(id) || !id.includes("/src/")) return "first";
    if (!road.has(id)) return "desk";
    if (id.includes("/src/domain/")) return "domain";
    // words pack better among words than between pieces of code
    return id.includes("/ui/text/") ? "words" : "book";
  };
}

/** All screens but those of the desk, as the table of routes loads them. */
function onTheRoad(graph: Graph): string[] {
  const screens = graph.getModuleInfo(file("ui/routes.ts"))?.dynamicallyImportedIds ?? [];
  return screens.filter((id) => !DESK.some((name) => id.includes(`/screens/${name}/`)));
}

/** The modules that some import at once, and those that these import, and so on. */
function reach(entries: readonly string[], graph: Graph): ReadonlySet<string> {
  const seen = new Set<string>();
  const todo = [...entries];
  for (let id = todo.pop(); id !== undefined; id = todo.pop()) {
    if (seen.has(id)) continue;
    seen.add(id);
    todo.push(...(graph.getModuleInfo(id)?.importedIds ?? []));
  }
  return seen;
}
