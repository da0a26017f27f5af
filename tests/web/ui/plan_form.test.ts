import { describe, expect, it } from "vitest";
import { KINDS } from "@/ui/screens/plan/fields";
import { formOf, readForm } from "@/ui/screens/plan/form";

const PLATE = KINDS.plate!;

function read(fields: Record<string, string>) {
  return readForm(PLATE, { ...formOf(PLATE, { of: "tyres" }), ...fields });
}

describe("the form of a plate of tyres", () => {
  it("keeps the size as typed, the index and the count as whole numbers", () => {
    const { fields, errors } = read({
      ...{ tyre_size: "265/70 r 17", tyre_load_index: " 116 " },
      ...{ tyre_axle: "rear", tyres_per_axle: "4" },
    });
    expect(errors).toEqual({});
    expect(fields).toMatchObject({
      ...{ of: "tyres", tyre_size: "265/70 r 17", tyre_load_index: 116 },
      ...{ tyre_axle: "rear", tyres_per_axle: 4 },
    });
  });

  it("says the range of each", () => {
    expect(read({ tyre_load_index: "131" }).errors.tyre_load_index).toMatch(/whole number from 60 to 130/);
    expect(read({ tyre_load_index: "116,5" }).errors.tyre_load_index).toMatch(/116,5 is not a whole number/);
    expect(read({ tyres_per_axle: "1" }).errors.tyres_per_axle).toMatch(/from 2 to 4/);
  });

  it("lets an index be taken out again, and leaves a blank count alone", () => {
    const { fields } = read({ tyre_load_index: "", tyres_per_axle: "" });
    expect(fields.tyre_load_index).toBeNull();
    expect("tyres_per_axle" in fields).toBe(false);
  });
});
