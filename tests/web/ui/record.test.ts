import { describe, expect, it } from "vitest";
import { openBook } from "@/domain/book";
import { fullState } from "@/domain/state";
import { noBridge } from "@/ui/screens/weigh/bridge_facts";
import { weighingBody } from "@/ui/screens/weigh/record";
import { newVisit, type TakenReading, type Visit } from "@/ui/screens/weigh/visit";

const row = (kind: string, id: string, body: Record<string, unknown>) => ({
  id,
  kind,
  rev: `${id}-rev`,
  body,
});
const book = openBook({
  rows: [
    row("vehicle", "v", { name: "Wren", wheelbase_m: 3.2 }),
    row("trailer", "t1", { name: "Wagtail" }),
    row("trailer", "t2", { name: "Plover" }),
    row("seat", "s1", { name: "Driver", x_m: 1.4, usual_person_id: "p1" }),
    row("seat", "s2", { name: "Beside", x_m: 1.4 }),
    row("person", "p1", { name: "Mara", mass_kg: 70 }),
    row("item", "i1", { name: "Winch", nature: "part" }),
  ],
});

function reading(
  id: string,
  differs: Partial<TakenReading["differs"]>,
  on_deck = ["front", "rear"],
): TakenReading {
  const nothing = { uncoupled: false, seats_empty: [] };
  const base = { id, value_kg: 3560, typed: ["3.56", "t"] as const, struck_out: null };
  return { ...base, on_deck: on_deck as TakenReading["on_deck"], differs: { ...nothing, ...differs } };
}

function saved(
  readings: readonly TakenReading[],
  trailers_on: readonly string[] = ["t1"],
  layout: Partial<Visit> = {},
) {
  const visit: Visit = { ...newVisit, ...layout, readings };
  const state = { ...fullState({ book }), trailers_on };
  const rest = { at: "2026-11-25T00:00:00.000Z", zone: "UTC", ticket: "", confirmed: true };
  return weighingBody({ ...rest, bridge: noBridge, visit, state, book });
}

describe("a weighing that is saved", () => {
  it("keeps what stood on the deck and the figure as typed, and leaves `split` to the calculation", () => {
    const [one] = saved([reading("r1", {}, ["front", "rear", "trailer"])]).readings;
    expect(one).toEqual({
      id: "r1",
      on_deck: ["front", "rear", "trailer"],
      value_kg: 3560,
      as_typed: { value_kg: ["3.56", "t"] },
      repeat_of: null,
      differs: null,
      struck_out: null,
    });
  });

  it("says of each reading how it differed", () => {
    const { readings } = saved([
      reading("r1", { uncoupled: true }),
      reading("r2", { seats_empty: ["s1"] }),
      reading("r3", { uncoupled: true, seats_empty: ["s1"] }),
    ]);
    expect(readings.map((one: { differs: unknown }) => one.differs)).toEqual([
      { uncoupled: true },
      { seats_empty: ["s1"] },
      { uncoupled: true, seats_empty: ["s1"] },
    ]);
  });

  it("gives each of several decks or pads its own name, and one pad that is moved the same", () => {
    const wheels = [reading("r1", {}, ["front_left"]), reading("r2", {}, ["rear_left", "front_left"])];
    const decks = (layout: Partial<Visit>) =>
      saved(wheels, [], layout).readings.map((one: { deck?: string }) => one.deck);
    expect(decks({ form: "single_deck" })).toEqual([undefined, undefined]);
    expect(decks({ form: "multi_deck" })).toEqual(["front_left", "front_left+rear_left"]);
    expect(decks({ form: "pads" })).toEqual(["front_left", "front_left+rear_left"]);
    expect(decks({ form: "pads", one_pad: true })).toEqual(["pad", "pad"]);
    expect(saved(wheels, [], { form: "pads" }).bridge.form).toBe("pads");
  });

  it("claims no difference that the state does not have", () => {
    const { readings } = saved([reading("r1", { uncoupled: true, seats_empty: ["s2"] })], []);
    expect(readings[0].differs).toBeNull();
  });

  it("names the reading that another one repeats, in the same state alone", () => {
    const { readings } = saved([reading("r1", {}), reading("r2", { uncoupled: true }), reading("r3", {})]);
    expect(readings.map((one: { repeat_of: unknown }) => one.repeat_of)).toEqual([null, null, "r1"]);
  });

  it("copies which trailer was coupled, and the plan that took part", () => {
    const { state } = saved([reading("r1", {})]);
    expect(state.trailers).toEqual([
      { trailer_id: "t1", coupled: true },
      { trailer_id: "t2", coupled: false },
    ]);
    const ids = state.plan.map((one: { id: string }) => one.id);
    expect(ids).toEqual(["v", "t1", "t2", "i1", "s1", "s2"]);
    expect(state.plan[1]).toEqual({ id: "t1", rev: "t1-rev" });
  });
});
