import { describe, expect, it } from "vitest";
import { decide } from "@/sync/decide";
import { fold, openConflicts } from "@/sync/fold";
import { mutation, version } from "./make";

const me = { author: "u", device: "d" };

describe("deciding", () => {
  const first = version({ rev: "v1", body: { name: "Fridge", mass_kg: 20 } });
  const second = version({ rev: "v2", seq: 2, base_rev: "v1", body: { name: "Fridge", mass_kg: 21 } });

  it.each([
    ["a new record", { base_rev: null }, null, null, "applied"],
    ["the current one again", { mut: "v2" }, second, null, "duplicate"],
    ["an edit of the current one", { base_rev: "v2" }, second, null, "applied"],
    ["an edit of an earlier one", { base_rev: "v1" }, second, first, "conflict"],
    ["an edit of what has not come", { base_rev: "v9" }, second, null, "wait"],
    ["an edit of nothing known", { base_rev: "v1" }, null, null, "wait"],
  ])("%s", (_, over, current, base, outcome) => {
    expect(decide({ mutation: mutation(over), current, base, ...me }).outcome).toBe(outcome);
  });

  it("merges a conflicting edit onto what its author saw", () => {
    const edit = mutation({ base_rev: "v1", body: { name: "Cold box" } });
    const { version: kept } = decide({ mutation: edit, current: second, base: first, ...me });
    expect(kept?.body).toEqual({ name: "Cold box", mass_kg: 20 });
  });
});

describe("folding a record", () => {
  const one = version({ rev: "v1", seq: 1 });
  const two = version({ rev: "v2", seq: 2, base_rev: "v1", body: { name: "Theirs" } });
  const mine = mutation({ mut: "m2", base_rev: "v1", body: { name: "Mine" }, device_seq: 2 });
  const again = mutation({ mut: "m3", base_rev: "m2", body: { note: "again" }, device_seq: 3 });

  it("shows two edits in a row made without signal", () => {
    const { current, local } = fold({ versions: [one], pending: [mine, again], ...me });
    expect(current?.body).toEqual({ name: "Mine", note: "again" });
    expect(local.map((made) => made.standing)).toEqual(["applied", "applied"]);
  });

  it("lets both edits join the branch when another edit was first", () => {
    const { current, local } = fold({ versions: [two, one], pending: [mine, again], ...me });
    expect(current).toBe(two);
    expect(local.map((made) => made.standing)).toEqual(["conflict", "conflict"]);
    expect(local[1]?.body).toEqual({ name: "Mine", note: "again" });
  });

  it("counts once what the server already holds", () => {
    const kept = version({ rev: "m2", seq: 2, base_rev: "v1", body: { name: "Mine" } });
    const { current, local } = fold({ versions: [one, kept], pending: [mine], ...me });
    expect(current).toBe(kept);
    expect(local).toEqual([]);
  });

  it("and counts it once, too, when others have edited since", () => {
    const kept = version({ rev: "m2", seq: 2, base_rev: "v1", body: { name: "Mine" } });
    const later = version({ rev: "v3", seq: 3, base_rev: "m2", body: { name: "Theirs" } });
    const { current, local } = fold({ versions: [one, kept, later], pending: [mine], ...me });
    expect(current).toBe(later);
    expect(local).toEqual([]);
  });

  it("knows nothing of nothing", () => {
    expect(fold({ versions: [], pending: [], ...me })).toEqual({ current: null, local: [] });
  });
});

describe("open conflicts", () => {
  const beside = version({ rev: "v3", seq: 3, base_rev: "v1", standing: "conflict" });

  it("are those after which nothing was applied", () => {
    expect(openConflicts([version(), beside])).toEqual([beside]);
    expect(openConflicts([version(), beside, version({ rev: "v4", seq: 4 })])).toEqual([]);
  });

  it("concern their own record only", () => {
    expect(openConflicts([beside, version({ id: "other", rev: "v4", seq: 4 })])).toEqual([beside]);
  });
});
