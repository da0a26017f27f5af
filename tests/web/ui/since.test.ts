import { describe, expect, it } from "vitest";
import { openBook } from "@/domain/book";
import type { FuelAnswer } from "@/services/consumption";
import type { NextSupply } from "@/services/way";
import { bodyOf, lacking, whatOf } from "@/ui/screens/entry/spec";
import { emptyFill, readSince } from "@/ui/screens/fuel/entry";
import { nextWords, surfaceList, takeWords } from "@/ui/text/ahead";
import { effectWords } from "@/ui/text/fuel";
import { describe as told } from "@/ui/text/log";

const BOOK = openBook({ rows: [] });
const EMPTY = emptyFill(BOOK, false);
const NOW = { at: "2026-05-01T08:00:00Z", zone: "Etc/UTC" };

describe("the way since the last entry, without a fill", () => {
  it("is said by another surface, or an odometer that has gone on", () => {
    expect(readSince(EMPTY, EMPTY, 1_000, NOW)).toBeNull();
    const sand = readSince({ ...EMPTY, surface: "sand" }, EMPTY, 1_000, NOW);
    expect(sand).toMatchObject({ what: "surface", rate_u: 0, surface: { sand: 1 } });
    expect(sand).not.toHaveProperty("odometer_km");
    const on = { ...EMPTY, odometer: { text: "1200", unit: "km" } };
    expect(readSince(on, EMPTY, 1_000, NOW)).toMatchObject({ odometer_km: 1_200 });
  });

  it("is not said while the odometer is half typed, or litres are", () => {
    const half = { ...EMPTY, surface: "sand" as const, odometer: { text: "12", unit: "km" } };
    expect(readSince(half, EMPTY, 1_000, NOW)).toBeNull();
    const litres = { ...EMPTY, surface: "sand" as const, lines: { main: { text: "40", unit: "L" } } };
    expect(readSince(litres, EMPTY, 1_000, NOW)).toBeNull();
  });
});

/** Narrow spaces stand between figures and units. */
const plain = (text: string) => text.replaceAll("\u202f", " ").replaceAll("\u00a0", " ");

const NEXT: NextSupply = {
  ...{ supply: 0, at_km: 90, distance_km: 90, way: {}, probability: 0.97, likely_l: 20, count_on_l: 12 },
  ...{ least_l: 0, room_l: 40, full_probability: 0.999 },
};

describe("what comes next, in words", () => {
  it("says how far and whether it counts", () => {
    expect(nextWords("Well", NEXT, null, 0.95).map(plain)).toEqual([
      "Well, 90 km on.",
      "Reached, counting on it (97 %).",
    ]);
    expect(nextWords("Well", NEXT, 1.5, 0.99)[1]).toContain("do not count on it");
    expect(nextWords(null, { ...NEXT, probability: 0.2 }, null, 0.95)[0]).toContain(
      "none certain to the end",
    );
  });

  it("says what to take on, or what would have to be carried", () => {
    expect(takeWords("fuel", NEXT, 0.95)).toBe("");
    const short = { ...NEXT, probability: 0.4, least_l: 22.1 };
    expect(plain(takeWords("fuel", short, 0.95))).toBe("Take on at least 23 L here to count on it.");
    const far = { ...short, least_l: 61, full_probability: 0.3 };
    expect(plain(takeWords("fuel", far, 0.95))).toBe(
      "Even full here: 30 %. 21 L more would have to be carried.",
    );
    expect(takeWords("water", { ...short, least_l: null }, 0.95)).toBe(
      "Whatever water is taken on here, it cannot be counted on.",
    );
    const way: [string, number][] = [
      ["gravel", 60],
      ["sand", 30],
    ];
    expect(plain(surfaceList(way))).toBe("60 km gravel, 30 km sand.");
    expect(plain(surfaceList(way, 0))).toBe("60 km gravel, 30 km sand, without a trailer.");
    expect(plain(surfaceList(way, 90))).toBe("60 km gravel, 30 km sand, towing.");
    expect(plain(surfaceList(way, 30))).toBe("60 km gravel, 30 km sand, towing for 30 km.");
  });
});

describe("what one corrected surface changes", () => {
  const answer = (surface: "sealed" | "sand", count_on_km: number, l_per_100km: number) =>
    ({
      ...{ surface, towing: false, count_on_km },
      rates: [{ surface: "sealed", towing: false, l_per_100km, u: 1, full_tanks: 2, way_km: 400 }],
    }) as unknown as FuelAnswer;

  it("is said of the range and of each rate", () => {
    expect(effectWords(answer("sealed", 400, 14), answer("sealed", 430, 13)).map(plain)).toEqual([
      "Count on 430 km, if sealed ahead, instead of 400 km.",
      "Sealed: 13.0 L/100 km instead of 14.0 L/100 km.",
    ]);
    expect(effectWords(answer("sealed", 400, 14), answer("sand", 300, 14)).map(plain)).toEqual([
      "Count on 300 km, if sand ahead, instead of 400 km, if sealed ahead.",
    ]);
    expect(effectWords(answer("sealed", 400, 14), answer("sealed", 400, 14)).map(plain)).toEqual([
      "Count on 400 km, as before.",
    ]);
  });
});

describe("events of the log", () => {
  const event = (body: object) => ({ id: "e", kind: "event", rev: "e-1", body: { at: NOW.at, ...body } });

  it("are told apart, and each is corrected by its own form", () => {
    const heat = event({ what: "heat" });
    const sand = event({ what: "surface", surface: { sealed: 0.6, sand: 0.4 }, odometer_km: 1_200 });
    const shut = event({ what: "supply", supply: "Well", found: "no_water" });
    expect([heat, sand, shut, event({ what: "tyres" })].map(whatOf)).toEqual([
      ...["water_use", "surface", "supply", "change"],
    ]);
    expect(told(heat, BOOK)).toContain("water is used otherwise");
    expect(told(sand, BOOK)).toMatch(/^Sealed 60 %, Sand 40 % since the entry before at 1.200 km$/);
    expect(told(shut, BOOK)).toBe("Well: without water");
  });

  it("leave the rates of fuel alone, on older phones too", () => {
    expect(bodyOf("water_use", { what: "heat", water_rate_u: null })).toEqual({ what: "heat", rate_u: 0 });
    expect(bodyOf("supply", { supply: "Well", found: "open" })).toMatchObject({ what: "supply", rate_u: 0 });
    expect(bodyOf("surface", { on: "sand" })).toMatchObject({ rate_u: 0, surface: { sand: 1 } });
    const mixed = { surface: { sealed: 0.6, gravel: 0, sand: 0.4 } };
    expect(bodyOf("surface", { on: "mixed" }, mixed)).toMatchObject(mixed);
    const kept = { towing: true, note: "on the beach" };
    expect(bodyOf("surface", { on: "sand" }, kept)).toMatchObject(kept);
    expect(bodyOf("surface", { on: "sand", towing: false }, kept).towing).toBe(false);
  });

  it("of a supply need a place and what was found", () => {
    expect(Object.keys(lacking("supply", BOOK, {}))).toEqual(["supply", "found"]);
    expect(lacking("supply", BOOK, { supply: "Well", found: "open" })).toEqual({});
  });
});
