import { describe, expect, it } from "vitest";
import type { Body } from "@/services/road";
import { postOf } from "@/ui/screens/road/supplied";
import { struck, struckOnce } from "@/ui/screens/road/view";
import { placeWords, saidWords } from "@/ui/text/reports";

const TOWN: Body = { name: "Town", at_km: 90, fuel: true, water: true, certain: true };
const DRY: Body = { ...TOWN, fuel_shut: true, water_shut: false };
const ROUTE: Body = { name: "R", legs: [], supplies: [TOWN, { ...DRY, water: false }, DRY] };

describe("a supply on the way", () => {
  it("is struck out for the content that was reported missing", () => {
    expect(postOf(DRY, "fuel").kind).toBe("struck");
    expect(postOf(DRY, "water").kind).toBe("certain");
    expect(postOf(DRY).kind).toBe("certain");
    expect(postOf({ ...DRY, water_shut: true }).kind).toBe("struck");
  });

  it("says whether it is only looked at", () => {
    const looked = struck(ROUTE, { 0: true });
    expect(postOf(looked.supplies[0], "fuel").told).toContain("what if it is shut");
    expect(postOf(DRY, "fuel").told).toContain("struck out, not counted on");
  });

  it("is looked at the other way round, and then no longer", () => {
    const once = struckOnce(ROUTE, {}, 0);
    expect(once).toEqual({ 0: true });
    expect(struckOnce(ROUTE, once, 0)).toEqual({});
    expect(struckOnce(ROUTE, {}, 1)).toEqual({ 1: false });
    expect(struckOnce(ROUTE, {}, 2)).toEqual({ 2: true });
  });
});

describe("a report in words", () => {
  const report = { entry_id: "e", found: "no_fuel", at: "2026-05-12T04:20:00Z", author: "u", note: "" };
  const members = [{ user: "u", name: "Ada", role: "owner" as const }];

  it("says who said it and when", () => {
    expect(saidWords(report, { members }, "Etc/UTC")).toBe(
      "reported without fuel by Ada, 12 May 2026, 04:20",
    );
    const told = { ...report, found: "open", author: "?", note: "Seen" };
    expect(saidWords(told, { members }, "Etc/UTC")).toBe("reported open, 12 May 2026, 04:20: Seen");
    expect(placeWords({ supply: "Town", found: "shut" })).toBe("Town: shut");
  });
});
