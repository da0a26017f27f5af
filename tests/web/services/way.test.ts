import { describe, expect, it } from "vitest";
import { type Body, openBook, type Row } from "@/domain/book";
import { reportBody, strayReports } from "@/services/road";
import {
  aheadOn,
  around,
  daysBetween,
  nearOn,
  routeNow,
  surfacesOf,
  type Told,
  whereOn,
} from "@/services/way";

const AT = "2026-05-20T08:00:00Z";
const SEALED = { sealed: 1, gravel: 0, sand: 0 };
const NOTHING: Told = { route: null, anchor: null };

function row(kind: string, id: string, body: Body, order = 0): Row {
  return { id, kind, rev: `${id}-1`, body, order, author: "a" };
}

const supply = (name: string, at_km: number, more: Body = {}): Body => ({
  ...{ name, at_km, fuel: true, water: true, certain: true },
  ...more,
});
const OUT: Body = {
  name: "Out",
  legs: [{ distance_km: 300, surface: SEALED }],
  supplies: [supply("Town", 0), supply("Well", 120, { fuel: false, certain: false }), supply("End", 300)],
};

function fill(id: string, odometer_km: number, order: number): Row {
  const at = `2026-05-${String(order).padStart(2, "0")}T08:00:00Z`;
  return row(
    "fill",
    id,
    { at, zone: "Etc/UTC", odometer_km, lines: [{ tank_id: "main", litres_l: 40, full: true }] },
    order,
  );
}

function book(routes: readonly Row[], ...log: Row[]) {
  const plan = [
    row("vehicle", "v", { name: "V", odometer_factor: 1.02 }),
    row("tank", "main", { name: "Main", holds: "fuel", capacity_l: 80 }),
  ];
  return openBook({ rows: [...plan, ...routes, ...log] });
}

describe("the route that the vehicle is on", () => {
  const begun = (id: string, begun_odometer_km: number | null, order: number) =>
    row("route", id, { ...OUT, begun_odometer_km }, order);

  it("is the last begun that is not done", () => {
    const routes = [begun("old", 9_000, 1), begun("on", 10_000, 2), begun("next", null, 3)];
    expect(routeNow(book(routes, fill("f", 10_100, 2)), AT, NOTHING)?.id).toBe("on");
    expect(routeNow(book(routes, fill("f", 10_400, 2)), AT, NOTHING)?.id).toBe("next");
    expect(routeNow(book(routes.slice(0, 2), fill("f", 10_400, 2)), AT, NOTHING)).toBeNull();
  });

  it("is the one chosen, or none", () => {
    const routes = [begun("old", 9_000, 1), begun("on", 10_000, 2)];
    const opened = book(routes, fill("f", 10_100, 2));
    expect(routeNow(opened, AT, { ...NOTHING, route: "old" })?.id).toBe("old");
    expect(routeNow(opened, AT, { ...NOTHING, route: "" })).toBeNull();
    expect(routeNow(opened, AT, { ...NOTHING, route: "deleted" })).toEqual(routeNow(opened, AT, NOTHING));
  });
});

describe("where on it", () => {
  const on = row("route", "on", { ...OUT, begun_odometer_km: 10_000 });
  const opened = book([on], fill("f", 10_100, 2));

  it("goes by the odometer since it began", () => {
    expect(whereOn(opened, on, AT, NOTHING)).toBeCloseTo(102);
  });

  it("goes on by the odometer from a place that was chosen, to the end and no further", () => {
    const from = (at_km: number, odometer_km: number | null) =>
      whereOn(opened, on, AT, { route: "on", anchor: { how: "place", at_km, odometer_km } });
    expect(from(120, 10_050)).toBeCloseTo(171);
    expect(from(120, 10_100)).toBe(120);
    expect(from(120, null)).toBe(120);
    expect(from(280, 10_000)).toBe(300);
    const other: Told = { route: "else", anchor: { how: "place", at_km: 7, odometer_km: null } };
    expect(whereOn(opened, on, AT, other)).toBeCloseTo(102);
  });

  it("is told by a position only where supplies are placed", () => {
    const spot = { latitude_deg: 0, longitude_deg: 10.5 };
    expect(nearOn(OUT, spot)).toBeNull();
    const placed = [0, 300].map((at_km) =>
      supply("S", at_km, { latitude_deg: 0, longitude_deg: 10 + at_km / 300 }),
    );
    expect(nearOn({ ...OUT, supplies: placed }, spot)?.at_km).toBeCloseTo(150);
  });
});

describe("what is ahead", () => {
  const on = row("route", "on", OUT);
  const log = [fill("f1", 10_000, 1), fill("f2", 10_400, 2)];

  it("is the next certain supply, and by a report the end alone", () => {
    const found = aheadOn(book([on], ...log), on, AT, "fuel", 0);
    expect(found?.next.map((one) => one.supply)).toEqual([2]);
    expect(surfacesOf(found!.next[0]!)).toEqual([["sealed", 300]]);
    const shut = row("event", "e", { at: AT, zone: "Etc/UTC", ...reportBody(" end ", "shut", " seen ") }, 3);
    expect(shut.body.note).toBe("seen");
    const after = aheadOn(book([on], ...log, shut), on, AT, "fuel", 0);
    expect(after?.next.map((one) => one.supply)).toEqual([null]);
  });

  it("leaves what cannot be reckoned to the route's own page", () => {
    const wrong = row("route", "on", {
      ...OUT,
      legs: [{ distance_km: 300, surface: { ...SEALED, sealed: 0.5 } }],
    });
    expect(aheadOn(book([wrong], ...log), wrong, AT, "fuel", 0)).toBeNull();
  });

  it("has days only where the route says any", () => {
    expect(daysBetween(OUT, 0, 300)).toBeNull();
    expect(daysBetween({ ...OUT, day_km: 150 }, 75, 300)).toBeCloseTo(1.5);
  });

  it("names the supplies on both sides", () => {
    const names = (at_km: number) => around(OUT, at_km).map((one) => one.name);
    expect(names(0)).toEqual(["Town", "Well"]);
    expect(names(150)).toEqual(["Well", "End"]);
    expect(names(300)).toEqual(["End"]);
  });
});

describe("a report of a place that no route names", () => {
  const said = (id: string, name: string, found: string, order: number) =>
    row(
      "event",
      id,
      { at: `2026-05-0${order}T08:00:00Z`, zone: "Etc/UTC", ...reportBody(name, found) },
      order,
    );

  it("is not lost while something is shut there", () => {
    const reports = [
      said("e1", "Old name", "shut", 1),
      said("e2", "Town", "shut", 2),
      said("e3", "Gone", "shut", 3),
    ];
    const opened = book([row("route", "on", OUT)], ...reports, said("e4", "Gone", "open", 4));
    expect(strayReports(opened, AT).map((one) => one.id)).toEqual(["e1"]);
  });
});
