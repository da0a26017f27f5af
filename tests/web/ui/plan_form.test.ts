import { describe, expect, it } from "vitest";
import { KINDS } from "@/ui/screens/plan/fields";
import { changed, type Form, formOf, isAsked, readForm, type SlotForm } from "@/ui/screens/plan/form";
import { heldBack } from "@/ui/screens/plan/keeping";
import { stopText } from "@/ui/text/weigh";

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

const TRAILER = KINDS.trailer!;

function asked(kind: string, form: Form): string[] {
  const spec = KINDS[kind]!;
  return [...spec.first, ...spec.more].filter((one) => isAsked(one, form)).map((one) => one.name);
}

describe("a trailer in the plan", () => {
  it("is read from its form, each figure as typed", () => {
    const { fields, errors } = readForm(TRAILER, {
      ...formOf(TRAILER, {}),
      name: "Wagtail",
      axles: "2",
      coupling_to_axle_m: { text: "342 cm", unit: "m" },
      levelling_hitch: true,
      hitch_moment_kgm: { text: "1961.33", unit: "Nm" },
    });
    expect(errors).toEqual({});
    expect(fields).toMatchObject({ name: "Wagtail", axles: 2, levelling_hitch: true });
    expect(fields.coupling_to_axle_m).toBeCloseTo(3.42, 12);
    expect(fields.hitch_moment_kgm).toBeCloseTo(200, 9); // 1961.33 N m over 9.80665 m/s2
    expect(fields.as_typed.hitch_moment_kgm).toEqual(["1961.33", "Nm"]);
  });

  it("refuses a fourth axle and an axle at the coupling, with the range", () => {
    const form = {
      ...formOf(TRAILER, {}),
      name: "W",
      axles: "4",
      coupling_to_axle_m: { text: "0.1", unit: "m" },
    };
    const { errors } = readForm(TRAILER, form);
    expect(errors.axles).toMatch(/1 to 3/);
    expect(errors.coupling_to_axle_m).toMatch(/0.3 to 15 m/);
  });

  it("is asked for the hitch's moment where there is a levelling hitch", () => {
    expect(asked("trailer", {})).not.toContain("hitch_moment_kgm");
    expect(asked("trailer", { levelling_hitch: true })).toContain("hitch_moment_kgm");
  });
});

describe("the second rear axle", () => {
  it("is asked about where there is one", () => {
    expect(asked("vehicle", { rear_axles: "single" })).not.toContain("rear_spread_m");
    expect(asked("vehicle", { rear_axles: "independent_pair" })).toContain("rear_spread_m");
    expect(asked("vehicle", { rear_axles: "independent_pair" })).not.toContain("rear_share");
    expect(asked("vehicle", { rear_axles: "load_sharing_pair" })).toContain("rear_share");
  });
});

describe("an item, a tank, a plate", () => {
  it("may be of a trailer, and comes back to the vehicle", () => {
    for (const kind of ["item", "tank", "plate"]) {
      const spec = KINDS[kind]!;
      const form = { ...formOf(spec, {}), name: "x", nature: "load", holds: "water", of: "trailer" };
      expect(readForm(spec, { ...form, trailer_id: "t1" }).fields.trailer_id).toBe("t1");
      expect(readForm(spec, { ...form, trailer_id: null }).fields.trailer_id).toBeNull();
    }
    expect(asked("plate", { of: "vehicle" })).not.toContain("trailer_id");
  });
});

describe("places that an item may move to", () => {
  const spec = KINDS.item!;
  const stored = {
    ...{ name: "Box", nature: "load" },
    may_move_to: [
      { label: "Tail", x_m: 4.125, y_m: 0.2 },
      { x_m: 1.5, roof: true },
      { x_m: 0.5, trailer_id: "t" },
    ],
  };
  const slots = (body: object) => formOf(spec, body).may_move_to as readonly SlotForm[];
  const kept = (value: readonly SlotForm[], body: object = stored) =>
    readForm(spec, { ...formOf(spec, body), name: "Box", nature: "load", may_move_to: value }, body);

  it("come back as they are, with what the form does not ask", () => {
    const { fields, errors } = kept(slots(stored));
    expect(errors).toEqual({});
    expect(fields.may_move_to).toEqual(stored.may_move_to);
    expect(changed(stored, fields)).toEqual({});
  });

  it("are added, put elsewhere and taken out", () => {
    const [first, second] = slots(stored);
    const moved = { ...second!, on: "", x: { text: "2,75", unit: "m" } };
    expect(kept([first!, moved]).fields.may_move_to).toEqual([
      { label: "Tail", x_m: 4.125, y_m: 0.2 },
      { x_m: 2.75 },
    ]);
    const fresh = { label: " Cab ", x: { text: "90", unit: "cm" }, on: "roof", rest: {} };
    expect(kept([fresh], {}).fields.may_move_to).toEqual([{ label: "Cab", x_m: 0.9, roof: true }]);
  });

  it("need their metres, within the range", () => {
    const bare = { label: "", x: { text: "", unit: "m" }, on: "", rest: {} };
    expect(kept([bare]).errors.may_move_to).toMatch(/Place 1 needs its metres/);
    expect(kept([{ ...bare, x: { text: "25", unit: "m" } }]).errors.may_move_to).toMatch(/-3 to 20 m/);
    expect(kept([{ ...bare, x: { text: "1.250", unit: "m" } }]).errors.may_move_to).toMatch(/Did you mean/);
  });

  it("are not written where there were none and are none", () => {
    expect("may_move_to" in kept([], {}).fields).toBe(false);
  });
});

describe("whether an item is kept aboard", () => {
  const said = (name: string, keep_aboard: boolean | null) => heldBack({ name, keep_aboard });

  it("goes by its name while nobody has said", () => {
    expect(said("Recovery kit", null).keep_aboard).toMatch(/Kept aboard: its name.*Say no to let it/);
    expect(said("Box", null).keep_aboard).toMatch(/^Not kept aboard: its name does not/);
  });

  it("goes by what was said, whatever its name", () => {
    expect(said("Recovery kit", false).keep_aboard).toMatch(/^Not kept aboard: you say so/);
    expect(said("Box", true).keep_aboard).toMatch(/^Kept aboard: you say so/);
  });

  it("puts the other questions off while it is kept", () => {
    expect(Object.keys(said("Box", true))).toEqual(["keep_aboard", "may_stay_behind", "may_move_to"]);
    expect(Object.keys(said("Box", null))).toEqual(["keep_aboard"]);
  });

  it("goes back to the name, and is kept as a blank", () => {
    const spec = KINDS.item!;
    const stored = { name: "Recovery kit", nature: "load", keep_aboard: false };
    const form = { ...formOf(spec, stored), keep_aboard: null };
    expect(changed(stored, readForm(spec, form, stored).fields)).toEqual({ keep_aboard: null });
  });
});

describe("a stop in words", () => {
  it.each([
    [["front", "rear"], false, [], "Whole vehicle"],
    [["front", "rear"], true, [], "Whole vehicle, uncoupled"],
    [["rear"], false, ["Mara"], "Rear axle, Mara out"],
    [["trailer", "rear", "front"], false, [], "Vehicle and trailer"],
    [["rear", "trailer"], false, [], "Rear axle and trailer axles"],
    [[], false, [], "Nothing on the deck"],
  ])("%j, uncoupled %s, out %j", (on_deck, uncoupled, out, told) => {
    expect(stopText(on_deck, uncoupled, out)).toBe(told);
  });
});
