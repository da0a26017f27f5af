import { beforeEach, describe, expect, it } from "vitest";
import type { Listed, Records } from "@/services/records";
import { editsOf, reverse } from "@/ui/screens/plan/edits";

type Call = readonly [kind: string, id: string, change: object, options: { base_rev?: string } | undefined];

const row = (body: object, rev = "r1") => ({ id: "i", kind: "item", rev, body: { name: "Crate", ...body } });

describe("the edits of a visit", () => {
  let calls: Call[];
  let records: Records;
  beforeEach(() => {
    calls = [];
    records = {
      add: async () => "new",
      edit: async (_: string, ...call: Call) => void calls.push(call),
    } as unknown as Records;
  });

  it("go on from our own edit where the page does not show it yet", async () => {
    const edits = editsOf(records, "b");
    await edits.put("item", row({ x_m: 1 }), { x_m: 2 }, "Place");
    await edits.put("item", row({ x_m: 1 }), { x_m: 3 }, "Place");
    expect(calls.map(([, , , options]) => options?.base_rev)).toEqual(["r1", undefined]);
  });

  it("are taken back by one more edit, the last one first", async () => {
    const edits = editsOf(records, "b");
    const typed = { mass_kg: ["1.2", "t"] };
    await edits.put("item", row({ mass_kg: 1200, as_typed: typed }), { mass_kg: 25 }, "Mass");
    await edits.put("item", row({ mass_kg: 25 }, "r2"), { count: 2 }, "Count");
    expect(edits.steps.value.map((one) => one.label)).toEqual(["Crate: Mass", "Crate: Count"]);
    expect(await edits.undo([row({ mass_kg: 25, count: 2 }, "r3")])).toBeNull();
    expect(await edits.undo([row({ mass_kg: 25, count: 1 }, "r4")])).toBeNull();
    expect(calls.slice(2).map(([, , change]) => change)).toEqual([
      { count: 1 },
      { mass_kg: 1200, as_typed: typed },
    ]);
    expect(edits.steps.value).toEqual([]);
  });

  it("leave what somebody else has changed since, and say so", async () => {
    const edits = editsOf(records, "b");
    await edits.put("item", row({ x_m: 1 }), { x_m: 2 }, "Place");
    expect(await edits.undo([row({ x_m: 4 }, "r9")])).toMatch(/somebody has changed it since/);
    expect(calls.length).toBe(1);
  });

  it("take out what was added, and bring back what was taken out", async () => {
    const edits = editsOf(records, "b");
    await edits.add("item", { name: "Crate" });
    await edits.remove("item", row({}));
    await edits.undo([row({ deleted: true }, "r2")]);
    await edits.undo([]);
    expect(calls.map(([, id, change]) => [id, change])).toEqual([
      ["i", { deleted: true }],
      ["i", { deleted: false }],
      ["new", { deleted: true }],
    ]);
  });

  it("of a whole kit are one step, taken back at once but for what is out already", async () => {
    const lists: (readonly Listed[])[] = [];
    const many = {
      takeIn: async (_: string, list: readonly Listed[]) => {
        lists.push(list);
        return list.map((one, i) => one.edits?.id ?? `i${i}`);
      },
    } as unknown as Records;
    const edits = editsOf(many, "b");
    const wanted = ["Jack", "Kit", "Strap"].map((name) => ({ kind: "item", row: null, body: { name } }));
    await edits.several(wanted, "Tools: added");
    expect(edits.steps.value.map((one) => one.label)).toEqual(["Tools: added"]);
    const rows = [
      { ...row({}, "r0"), id: "i0" },
      { ...row({ deleted: true }, "r1"), id: "i1" },
    ];
    expect(await edits.undo(rows)).toBeNull();
    expect(lists[1]).toEqual([
      { kind: "item", body: { deleted: true }, edits: { id: "i0", rev: "r0" } },
      { kind: "item", body: { deleted: true }, edits: { id: "i2", rev: "" } },
    ]);
    expect(edits.steps.value).toEqual([]);
  });

  it("are done again until there is a new one", async () => {
    const edits = editsOf(records, "b");
    await edits.put("item", row({ x_m: 1 }), { x_m: 2 }, "Place");
    await edits.undo([row({ x_m: 2 }, "r2")]);
    expect(edits.undone.value.map((one) => one.label)).toEqual(["Crate: Place"]);
    expect(await edits.redo([row({ x_m: 1 }, "r3")])).toBeNull();
    expect(await edits.undo([row({ x_m: 2 }, "r4")])).toBeNull();
    expect(calls.map(([, , change]) => change)).toEqual([{ x_m: 2 }, { x_m: 1 }, { x_m: 2 }, { x_m: 1 }]);
    await edits.put("item", row({ x_m: 1 }, "r5"), { count: 2 }, "Count");
    expect(edits.undone.value).toEqual([]);
    expect(await edits.redo([row({ x_m: 1 }, "r6")])).toBeNull();
    expect(calls.length).toBe(5);
  });

  it("are done again before the page shows that they were taken back", async () => {
    const edits = editsOf(records, "b");
    await edits.put("item", row({ x_m: 1 }), { x_m: 2 }, "Place");
    await edits.undo([row({ x_m: 2 }, "r2")]);
    expect(await edits.redo([row({ x_m: 2 }, "r2")])).toBeNull();
    expect(calls.map(([, , change]) => change)).toEqual([{ x_m: 2 }, { x_m: 1 }, { x_m: 2 }]);
  });

  it("are not done again over what somebody else has changed", async () => {
    const edits = editsOf(records, "b");
    await edits.put("item", row({ x_m: 1 }), { x_m: 2 }, "Place");
    await edits.undo([row({ x_m: 2 }, "r2")]);
    expect(await edits.redo([row({ x_m: 4 }, "r9")])).toMatch(/somebody has changed it since/);
    expect(edits.undone.value).toEqual([]);
    expect(calls.length).toBe(2);
  });

  it("of several records are one step: edited, made, taken back and done again together", async () => {
    const lists: (readonly Listed[])[] = [];
    const many = {
      takeIn: async (_: string, list: readonly Listed[]) => {
        lists.push(list);
        return list.map((one) => one.edits?.id ?? "made");
      },
    } as unknown as Records;
    const edits = editsOf(many, "b");
    const wanted = [
      { kind: "item", row: row({ count: 4 }), body: { count: 3 } },
      { kind: "item", row: null, body: { name: "Crate", count: 1 } },
    ];
    await edits.several(wanted, "what was moved");
    const made = (body: object, rev: string) => ({ ...row(body, rev), id: "made" });
    expect(await edits.undo([row({ count: 3 }, "r2"), made({ count: 1 }, "m1")])).toBeNull();
    expect(await edits.redo([row({ count: 4 }, "r3"), made({ deleted: true }, "m2")])).toBeNull();
    expect(lists.slice(1).map((list) => list.map((one) => [one.edits?.id, one.body]))).toEqual([
      [
        ["i", { count: 4 }],
        ["made", { deleted: true }],
      ],
      [
        ["i", { count: 3 }],
        ["made", { deleted: false }],
      ],
    ]);
  });

  it("of what a blank says by itself go back to the blank", () => {
    expect(reverse({}, { keep_aboard: true, may_stay_behind: false })).toEqual({
      ...{ keep_aboard: null, may_stay_behind: null },
    });
  });

  it("of a choice that was blank go back to what the blank counts as", () => {
    expect(reverse({}, { stage: "on_order", roof: true, x_m: 2, known_by: "weighed" })).toEqual({
      ...{ stage: "fitted", roof: false, x_m: null, known_by: "estimate" },
    });
  });
});
