import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clockAt, type DayOrder, dayOrderOf, instantOf, readDay, readTime } from "@/units/dates";

function said(text: string, order: DayOrder | null = null): string {
  const read = readDay(text, order);
  if (read.kind !== "ok") return read.kind;
  const { year, month, day, hour, minute, second } = read.local;
  return `${year}-${month}-${day}${read.timed ? ` ${hour}:${minute}:${second}` : ""}${read.utc ? " UTC" : ""}`;
}

describe("a day", () => {
  it.each([
    ["2026-03-04", "2026-3-4"],
    ["2026/3/4", "2026-3-4"],
    ["13/2/2026", "2026-2-13"],
    ["2/13/2026", "2026-2-13"],
    ["4/4/26", "2026-4-4"],
    ["31.12.99", "2099-12-31"],
    ["4 Mar 2026", "2026-3-4"],
    ["4-Mar-26", "2026-3-4"],
    ["March 4th, 2026", "2026-3-4"],
    ["Wed 4 March 2026", "2026-3-4"],
    ["2026-03-04T05:06:07Z", "2026-3-4 5:6:7 UTC"],
    ["2026-03-04 17:05", "2026-3-4 17:5:0"],
    ["13/02/2026 5:05 pm", "2026-2-13 17:5:0"],
    ["03/04/2026", "ask"],
    ["3.4.26 17:05", "ask"],
    ["", "blank"],
    ["30/02/2026", "wrong"],
    ["29/02/2026", "wrong"],
    ["29/02/2028", "2028-2-29"],
    ["13/13/2026", "wrong"],
    ["soon", "wrong"],
    ["46085", "wrong"],
    ["2026-03-04 25:00", "wrong"],
    ["2026-03-04 and more", "wrong"],
  ])("%j is %s", (text, wanted) => {
    expect(said(text)).toBe(wanted);
  });

  it("is read in the order that was said", () => {
    expect(said("03/04/2026", "dmy")).toBe("2026-4-3");
    expect(said("03/04/2026", "mdy")).toBe("2026-3-4");
    expect(said("13/04/2026", "mdy")).toBe("wrong");
    expect(said("2026-03-04", "mdy")).toBe("2026-3-4");
  });

  it("tells a column's order where one of its days can only be one", () => {
    expect(dayOrderOf(["03/04/2026", "13/04/2026", "n/a", ""])).toBe("dmy");
    expect(dayOrderOf(["03/04/2026", "04/13/2026"])).toBe("mdy");
    expect(dayOrderOf(["03/04/2026", "05/04/2026"])).toBeNull();
    expect(dayOrderOf(["13/04/2026", "04/13/2026"])).toBeNull();
  });
});

describe("a time of day", () => {
  it.each([
    ["17:05", 17, 5],
    ["17.05", 17, 5],
    ["7h30", 7, 30],
    ["12:00 am", 0, 0],
    ["12:15 PM", 12, 15],
    ["5:05 p.m.", 17, 5],
  ])("%j is %i:%i", (text, hour, minute) => {
    expect(readTime(text)?.at).toEqual({ hour, minute, second: 0 });
  });

  it.each(["24:00", "17:60", "17", "13:00 pm", "noon"])("%j is none", (text) => {
    expect(readTime(text)).toBeUndefined();
  });
});

describe("a clock's instant", () => {
  const local = { year: 2026, month: 1, day: 2, hour: 3, minute: 4, second: 5 };
  const at = (zone: string, other = {}) => new Date(instantOf({ ...local, ...other }, zone)).toISOString();

  it("is by the zone's offset on that day", () => {
    expect(at("UTC")).toBe("2026-01-02T03:04:05.000Z");
    // IANA: Darwin is 9 h 30 min ahead all year, Adelaide 10 h 30 min in summer and 9 h 30 min in winter
    expect(at("Australia/Darwin")).toBe("2026-01-01T17:34:05.000Z");
    expect(at("Australia/Adelaide")).toBe("2026-01-01T16:34:05.000Z");
    expect(at("Australia/Adelaide", { month: 7 })).toBe("2026-07-01T17:34:05.000Z");
  });

  it("shows the same on the clock again", () => {
    const day = fc.record({
      year: fc.integer({ min: 1990, max: 2060 }),
      month: fc.integer({ min: 1, max: 12 }),
    });
    const hour = fc.record({ day: fc.integer({ min: 1, max: 28 }), hour: fc.integer({ min: 4, max: 23 }) });
    const zone = fc.constantFrom("Australia/Adelaide", "America/Denver", "Africa/Windhoek", "Asia/Kathmandu");
    fc.assert(
      fc.property(day, hour, zone, (a, b, place) => {
        const shown = { ...a, ...b, minute: 5, second: 6 };
        const two = (value: number) => String(value).padStart(2, "0");
        const wanted = `${a.year}-${two(a.month)}-${two(b.day)}T${two(b.hour)}:05:06`;
        expect(clockAt(instantOf(shown, place), place)).toBe(wanted);
      }),
    );
  });
});
