import { describe, expect, it, vi } from "vitest";
import { NotYetHere } from "@/ui/parts/not_yet_here";
import { createRouter } from "@/ui/router";
import { match, ROUTES, type Route } from "@/ui/routes";

const named = (path: string): Route => ({ path, load: async () => ({ default: () => path }) });
const routes = [named("/"), named("/new"), named("/b/:book"), named("/b/:book/plan/:kind/:record")];

describe("paths", () => {
  it.each([
    ["/", "/", {}],
    ["/new", "/new", {}],
    ["/new/", "/new", {}],
    ["/b/018f", "/b/:book", { book: "018f" }],
    ["/b/018f/plan/item/new", "/b/:book/plan/:kind/:record", { book: "018f", kind: "item", record: "new" }],
    ["/b/a%20b", "/b/:book", { book: "a b" }],
    ["/b/%E0%A4", "/b/:book", { book: "%E0%A4" }],
  ])("%s", (path, route, params) => {
    expect(match(path, routes)).toMatchObject({ route: { path: route }, params });
  });

  it.each(["/else", "/b", "/b/018f/else", "//evil.example/x/y/z"])("%s leads nowhere", (path) => {
    expect(match(path, routes)).toBeNull();
  });

  it("of all screens are different, and only signing in is open", () => {
    expect(new Set(ROUTES.map((one) => one.path)).size).toBe(ROUTES.length);
    expect(ROUTES.filter((one) => one.open).map((one) => one.path)).toEqual(["/sign-in"]);
  });
});

function world(at = "/", more: Partial<{ routes: Route[]; stale: boolean }> = {}) {
  const location = { pathname: at, assign: vi.fn() };
  const put = (_: unknown, __: string, path: string) => {
    location.pathname = path;
  };
  const history = { pushState: vi.fn(put), replaceState: vi.fn(put) };
  const events = new EventTarget();
  const page = {
    history,
    location,
    scrollTo: vi.fn(),
    addEventListener: events.addEventListener.bind(events),
  };
  const router = createRouter({
    page: page as unknown as Window,
    routes: more.routes ?? routes,
    stale: () => more.stale ?? false,
  });
  return { router, page, back: () => events.dispatchEvent(new Event("popstate")) };
}

const at = (router: ReturnType<typeof world>["router"], path: string) =>
  vi.waitFor(() => expect(router.shown.value?.path).toBe(path));

describe("the router", () => {
  it("shows the page that was asked for, without taking the focus", async () => {
    const { router } = world("/b/018f");
    router.start();
    await at(router, "/b/018f");
    expect(router.shown.value).toMatchObject({ params: { book: "018f" }, arrived: false });
  });

  it("goes on, and back", async () => {
    const { router, page, back } = world();
    router.start();
    router.go("/new");
    await at(router, "/new");
    expect(router.shown.value?.arrived).toBe(true);
    expect(page.scrollTo).toHaveBeenCalledWith(0, 0);
    page.location.pathname = "/";
    back();
    await at(router, "/");
  });

  it("replaces a page that nobody should come back to", async () => {
    const { router, page } = world("/new");
    router.go("/b/018f", { replace: true });
    await at(router, "/b/018f");
    expect(page.history.pushState).not.toHaveBeenCalled();
  });

  it("shows the last of two pages that were asked for, whichever loads first", async () => {
    let slow = (_: { default: () => string }) => {};
    const late = {
      path: "/late",
      load: () => new Promise<{ default: () => string }>((done) => (slow = done)),
    };
    const { router } = world("/", { routes: [...routes, late] });
    router.go("/late");
    router.go("/new");
    await at(router, "/new");
    slow({ default: () => "late" });
    await Promise.resolve();
    expect(router.shown.value?.path).toBe("/new");
  });

  it("loads the page as a whole when its part is gone, or the version is old", async () => {
    const lost = { path: "/lost", load: () => Promise.reject(new TypeError("gone")) };
    const { router, page } = world("/", { routes: [...routes, lost] });
    router.go("/lost");
    await vi.waitFor(() => expect(page.location.assign).toHaveBeenCalledWith("/lost"));
    const old = world("/", { stale: true });
    old.router.go("/new");
    expect(old.page.location.assign).toHaveBeenCalledWith("/new");
    expect(old.page.history.pushState).not.toHaveBeenCalled();
  });

  it("says that a page is not on this phone yet, when loading anew did not bring it", async () => {
    const lost = { path: "/lost", load: () => Promise.reject(new TypeError("gone")) };
    const { router, page } = world("/lost", { routes: [...routes, lost] });
    router.start();
    await vi.waitFor(() => expect(router.shown.value?.Screen).toBe(NotYetHere));
    expect(page.location.assign).not.toHaveBeenCalled();
  });

  it("says so where there is nothing", async () => {
    const { router } = world("/else");
    router.start();
    await vi.waitFor(() => expect(router.shown.value).toMatchObject({ path: "/else", Screen: null }));
  });
});
