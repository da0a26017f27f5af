/** What is asked of the least change, and how its moves are written down. */
import { describe, expect, it } from "vitest";
import { openBook, type Row } from "@/domain/book";
import { firstAsked, leastCouplingKg, readAsked, stateIn } from "@/ui/screens/change/wish";
import { entryOf, placed, writePlan } from "@/ui/screens/change/write";
import type { Edits, Wanted } from "@/ui/screens/plan/edits";

const row = (id: string, kind: string, body: Row["body"]): Row => ({ id, kind, rev: `${id}-1`, body });
const slot = { label: "behind the seats", x_m: 1.9, z_m: 0.5 };
const onTrailer = { label: "box", x_m: 3, roof: false, trailer_id: "t" };
const box = { name: "Box", nature: "load", x_m: 3.4, y_m: 0.4, may_move_to: [slot, onTrailer] };
const book = openBook({
  rows: [
    row("v", "vehicle", { name: "V", wheelbase_m: 3 }),
    row("t", "trailer", { name: "T" }),
    row("i", "item", box),
    row("w", "tank", { name: "Water", holds: "water", capacity_l: 50 }),
    row("f", "tank", { name: "Fuel", holds: "fuel", capacity_l: 90 }),
  ],
});
const now = { tanks: [], seats: [], items_away: ["i"], trailers_on: [] };

describe("what is asked", () => {
  it("begins as the usual question", () => {
    const { wishes, errors } = readAsked(firstAsked("now"));
    expect(wishes).toMatchObject({ tanks: "as_is", objective: "moves", let_out: ["water"], refused: [] });
    expect(wishes.water_reserve_l).toBeNull();
    expect(errors).toEqual({ reserve: null, coupling: null });
  });

  it("takes typed reserves, and names a figure that cannot be", () => {
    const typed = { ...firstAsked("now"), reserve: { text: "30", unit: "L" }, fuel: true };
    expect(readAsked(typed).wishes).toMatchObject({ water_reserve_l: 30, let_out: ["water", "fuel"] });
    const wrong = readAsked({ ...typed, coupling: { text: "-5", unit: "kg" } });
    expect(wrong.errors.coupling).toContain("Least coupling load");
    expect(wrong.wishes.least_coupling_kg).toBe(0);
  });

  it("keeps of the coupling what the trailer that is on asks for, unless another figure is typed", () => {
    const towed = { ...book, trailers: [row("t", "trailer", { name: "T", least_coupling_kg: 80 })] };
    const least = (which: string) =>
      leastCouplingKg(
        towed,
        stateIn(towed, firstAsked(which), null, () => now),
      );
    expect([least("t"), least("full")]).toEqual([80, 0]);
    expect(readAsked(firstAsked("t"), 80).wishes.least_coupling_kg).toBe(80);
    const typed = { ...firstAsked("t"), coupling: { text: "95", unit: "kg" } };
    expect(readAsked(typed, 80).wishes.least_coupling_kg).toBe(95);
  });

  it("is put to the state of the log, to all full, or to a trailer that is on", () => {
    const state = (which: string) => stateIn(book, firstAsked(which), null, () => now);
    expect(state("now")).toBe(now);
    expect(state("gone weighing")).toBe(now);
    expect(state("full").trailers_on).toEqual([]);
    expect(state("full").items_away).toEqual([]);
    expect(state("t").trailers_on).toEqual(["t"]);
  });
});

describe("what is written down", () => {
  it("a place with every field, so that nothing of the old one stays", () => {
    expect(placed(box, 0)).toEqual({ x_m: 1.9, y_m: null, z_m: 0.5, roof: false, trailer_id: null });
    expect(placed(box, 1)).toEqual({ x_m: 3, y_m: null, z_m: null, roof: false, trailer_id: "t" });
  });

  it("what is left behind, let out or poured over, each as its own entry", () => {
    expect(entryOf(book, "i", { id: "off", kind: "off" })).toEqual({
      kind: "aboard",
      body: { subject: "item", subject_id: "i", aboard: false, why: "left" },
    });
    expect(entryOf(book, "w", { id: "out:0", kind: "out", litres_l: 20 })?.kind).toBe("water");
    expect(entryOf(book, "f", { id: "out:0", kind: "out", litres_l: 20 })?.body).toEqual({
      from_tank_id: "f",
      out: "given_away",
      litres_l: 20,
    });
    const pour = { id: "to:x:0", kind: "pour", to_tank_id: "x", litres_l: 10 } as const;
    expect(entryOf(book, "w", pour)?.body).toEqual({ from_tank_id: "w", to_tank_id: "x", litres_l: 10 });
    expect(entryOf(book, "i", { id: "slot:0", kind: "slot", slot: 0 })).toBeNull();
  });

  it("the plan takes new places, and lets go what is to leave it for good", async () => {
    const steps: (readonly Wanted[])[] = [];
    const several = async (list: readonly Wanted[]) => void steps.push(list);
    const edits = { several } as unknown as Edits;
    const common = { subject_id: "i", kind: "item", off_kg: 0, effects: [] } as const;
    const moves = [
      { ...common, choice: { id: "slot:0", kind: "slot", slot: 0 } },
      { ...common, choice: { id: "off", kind: "off" } },
    ] as const;
    await writePlan(book, edits, moves, null);
    await writePlan(book, edits, moves.slice(1), "2026-05-01");
    expect(steps.map((list) => list.map((one) => one.body))).toEqual([
      [placed(box, 0)],
      [{ stage: "removed", removed_on: "2026-05-01" }],
    ]);
  });
});
