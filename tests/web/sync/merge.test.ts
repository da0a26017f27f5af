import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changeBetween, mergeEdit, same } from "@/sync/merge";

const base = { name: "Fridge", mass_kg: 20, x_m: 2, as_typed: { mass_kg: ["20", "kg"], x_m: ["200", "cm"] } };

describe("an edit onto a body", () => {
  it("replaces its fields and leaves the others", () => {
    expect(mergeEdit(base, { name: "Cold box" })).toEqual({ ...base, name: "Cold box" });
  });

  it("takes away the digits of a figure that came without its own", () => {
    const edited = mergeEdit(base, { mass_kg: 22 });
    expect(edited).toEqual({ ...base, mass_kg: 22, as_typed: { x_m: ["200", "cm"] } });
  });

  it("merges digits name by name", () => {
    const edited = mergeEdit(base, { mass_kg: 22, as_typed: { mass_kg: ["22", "kg"] } });
    expect(edited.as_typed).toEqual({ mass_kg: ["22", "kg"], x_m: ["200", "cm"] });
  });

  it("keeps the digits of a figure that is named but not changed", () => {
    expect(mergeEdit(base, { mass_kg: 20 })).toEqual(base);
  });

  it("drops an empty as_typed", () => {
    expect(mergeEdit({ mass_kg: 1, as_typed: { mass_kg: ["1", "kg"] } }, { mass_kg: null })).toEqual({
      mass_kg: null,
    });
  });

  it("does not touch what it was given", () => {
    const before = structuredClone(base);
    mergeEdit(base, { mass_kg: 1, as_typed: { mass_kg: ["1", "kg"] } });
    expect(base).toEqual(before);
  });
});

const field = fc.constantFrom("mass_kg", "x_m", "note");
const body = fc
  .tuple(
    fc.dictionary(field, fc.oneof(fc.integer({ min: 0, max: 3 }), fc.constant(null))),
    fc.dictionary(field, fc.tuple(fc.constantFrom("1", "2"), fc.constantFrom("kg", "t"))),
  )
  .map(([fields, typed]) => {
    const named = Object.entries(typed).filter(([name]) => name in fields);
    return named.length > 0 ? { ...fields, as_typed: Object.fromEntries(named) } : fields;
  });

describe("the change between two bodies", () => {
  it("leads from the one to the other that was made from it", () => {
    fc.assert(
      fc.property(body, body, (from, edit) => {
        const to = mergeEdit(from, edit);
        expect(mergeEdit(from, changeBetween(from, to))).toEqual(to);
      }),
    );
  });

  it("is empty between equal bodies", () => {
    expect(changeBetween(base, structuredClone(base))).toEqual({});
  });
});

describe("equal as JSON", () => {
  it.each([
    [{ a: 1, b: [1, { c: 2 }] }, { b: [1, { c: 2 }], a: 1 }, true],
    [{ a: 1 }, { a: 1, b: undefined }, false],
    [[], {}, false],
    [[1, 2], [2, 1], false],
    [null, {}, false],
    [0, false, false],
  ])("%j and %j: %s", (a, b, equal) => {
    expect(same(a, b)).toBe(equal);
  });
});
