/** What is asked of the least change, and how its moves are written down. */
import { describe, expect, it } from "vitest";
import { openBook, type Row } from "@/domain/book";
import type { Records } from "@/services/records";
import { firstAsked, leastCouplingKg, readAsked, stateIn } from "@/ui/screens/change/wish";
import { entryOf, logToday, placed, writePlan } from "@/ui/screens/change/write";
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
    const { edits, steps } = kept();
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

  const cans = row("c", "item", {
    ...{ name: "Can", nature: "load", count: 4, mass_kg: 20, x_m: 3.4, may_move_to: [slot], note: "steel" },
    as_typed: { mass_kg: ["20", "kg"], x_m: ["340", "cm"] },
  });
  const canBook = openBook({ rows: [cans], edits: [] });
  const some = { subject_id: "c", kind: "item", off_kg: 0, effects: [] } as const;
  const three = { ...some, choice: { id: "slot:0:3", kind: "slot", slot: 0, copies: 3 } } as const;
  const one = { ...some, choice: { id: "off:1", kind: "off", copies: 1 } } as const;

  it("copies that go are a record of their own, with the figures of the one that they are of", async () => {
    const { edits, steps } = kept();
    await writePlan(canBook, edits, [three], null);
    const [stays, goes] = steps[0]!;
    expect([stays!.row?.id, stays!.body]).toEqual(["c", { count: 1, article_id: "c" }]);
    expect(goes!.row).toBeNull();
    expect(goes!.body).toEqual({
      ...{ name: "Can", nature: "load", count: 3, mass_kg: 20, may_move_to: [slot], note: "steel" },
      ...{ article_id: "c", x_m: 1.9, z_m: 0.5, roof: false, as_typed: { mass_kg: ["20", "kg"] } },
    });
  });

  it("copies that were weighed singly are tied to no article", async () => {
    const { edits, steps } = kept();
    const singly = row("c", "item", { ...cans.body, weighed_singly: true });
    await writePlan(openBook({ rows: [singly], edits: [] }), edits, [three], null);
    expect(steps[0]!.map(({ body }) => body.article_id)).toEqual([undefined, undefined]);
  });

  it("copies that leave for good are kept as removed", async () => {
    const { edits, steps } = kept();
    await writePlan(canBook, edits, [one], "2026-05-01");
    expect(steps[0]!.map(({ body }) => [body.count, body.stage, body.x_m])).toEqual([
      [3, undefined, undefined],
      [1, "removed", 3.4],
    ]);
  });

  it("a copy left at home for today is the one that is logged", async () => {
    const { edits } = kept();
    const logged: unknown[] = [];
    const records = { logAll: async (list: readonly unknown[]) => void logged.push(list) };
    const apart = await writePlan(canBook, edits, [one], null);
    await logToday(canBook, records as unknown as Records, "b", [one], apart);
    expect(logged).toEqual([
      [
        {
          ...{ book: "b", kind: "aboard" },
          body: { subject: "item", subject_id: "new 1", aboard: false, why: "left" },
        },
      ],
    ]);
    logged.length = 0;
    await logToday(canBook, records as unknown as Records, "b", [one], new Map());
    expect(logged).toEqual([]);
  });
});

/** Edits that only keep what is asked of them. */
function kept(): { edits: Edits; steps: (readonly Wanted[])[] } {
  const steps: (readonly Wanted[])[] = [];
  const several = async (list: readonly Wanted[]) => {
    steps.push(list);
    return list.map(({ row: of }, i) => of?.id ?? `new ${i}`);
  };
  return { edits: { several } as unknown as Edits, steps };
}
