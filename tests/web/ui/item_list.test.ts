import { describe, expect, it } from "vitest";
import type { Settings } from "@/services/lists/spec";
import { figureOf, nameOf } from "@/ui/screens/import/shown";
import { wrongCell } from "@/ui/text/lists";
import { read, row } from "./lists";

const POUND = 0.45359237; // international agreement of 1959

function sixty(): string {
  const rows = Array.from(
    { length: 60 },
    (_, i) => `Crate ${i + 1};${(20 + i * 1.3).toFixed(1).replace(".", ",")};2,${10 + i}`,
  );
  return ["Item;Mass (lb);Place (m)", ...rows].join("\r\n");
}

describe("a list of sixty items with decimal commas and pounds", () => {
  const list = read(sixty(), { said: { all: { nature: "load" } } });

  it("is recognised", () => {
    const { delimiter, decimal, header, columns } = list.layout;
    expect({ delimiter, decimal, header }).toEqual({ delimiter: ";", decimal: ",", header: true });
    expect(columns.map((one) => [one.field?.name, one.unit])).toEqual([
      ["name", ""],
      ["mass_kg", "lb"],
      ["x_m", "m"],
    ]);
    expect(list.questions).toEqual([]);
  });

  it("is read to the digit, with what was typed kept", () => {
    expect(list.held).toBe(false);
    expect(list.ready).toHaveLength(60);
    const { body, kind, edits } = list.ready[59]!;
    expect({ kind, edits }).toEqual({ kind: "item", edits: null });
    expect(body).toEqual({
      ...{ name: "Crate 60", nature: "load", mass_kg: 96.7 * POUND, x_m: 2.69 },
      as_typed: { mass_kg: ["96.7", "lb"], x_m: ["2.69", "m"] },
    });
  });
});

it("of several copies shows the mass of each", () => {
  const list = read("name,mass,count,nature\nCan,12.5,4,load\nBox,30,1,load");
  const shown = list.lines.map((line) => [nameOf(line, list), figureOf(line, list)]);
  expect(shown).toEqual([
    ["Can × 4", "12.5 kg each"],
    ["Box", "30 kg"],
  ]);
});

describe("what could be two things", () => {
  const text = "name;mass;nature\nWinch;1,234;part\nBar;2,500;part";

  it("is asked once for the whole column", () => {
    const { questions, held } = read(text);
    expect(questions).toHaveLength(1);
    expect(questions[0]).toMatchObject({
      kind: "figures",
      text: "1,234",
      readings: { ",": "1.234", ".": "1234" },
    });
    expect(held).toBe(true);
  });

  it.each<[string, Settings, number[]]>([
    ["an answer", { marks: { mass_kg: "," } }, [1.234, 2.5]],
    ["the other answer", { marks: { mass_kg: "." } }, [1234, 2500]],
    ["the decimal mark of the list", { decimal: "," }, [1.234, 2.5]],
  ])("is settled by %s", (_, said, masses) => {
    const list = read(text, { said });
    expect(list.questions).toEqual([]);
    expect(list.ready.map(({ body }) => body.mass_kg)).toEqual(masses);
  });

  it("keeps the digits as they stood", () => {
    const { ready } = read(text, { said: { decimal: "," } });
    expect(ready[0]?.body.as_typed).toEqual({ mass_kg: ["1.234", "kg"] });
  });

  it("needs no question where the column shows its mark elsewhere", () => {
    const { ready, questions } = read("name;mass;nature\nWinch;1.234;part\nBar;60,5;part");
    expect(questions).toEqual([]);
    expect(ready.map(({ body }) => body.mass_kg)).toEqual([1234, 60.5]);
  });

  it("asks what a blank column of what new ones need holds for all", () => {
    const { questions } = read("name;mass\nWinch;28");
    expect(questions.map(({ kind, field }) => [kind, field.name])).toEqual([["all", "nature"]]);
  });
});

describe("what is wrong", () => {
  const text = "name,mass,count,nature,roof,place\nBar,12o,2,part,no,-0.7\n,60,1.5,thing,maybe,25";
  const { lines, held, ready } = read(text);
  const told = lines.flatMap(({ errors }) => errors.map(wrongCell));

  it("names field, value and range of each cell", () => {
    expect(told).toEqual([
      'Mass of one: "12o" ends in a unit that is not one of kg, t, g, lb.',
      'How many: "1.5" is not a whole number from 1 to 1000.',
      'Part or load: "thing" is none of Part, Load.',
      'On the roof: "maybe" is neither yes nor no.',
      "Place: 25 m is not possible, it must be -3 to 20 m.",
      "Name: is blank, and a new one needs it.",
    ]);
  });

  it("holds the whole list until it is put right or left out", () => {
    expect(held).toBe(true);
    expect(ready).toEqual([]);
    expect(read(text, { said: { left: { 2: true, 3: true } } }).held).toBe(false);
    const mended = read(text, { said: { cells: { "2:1": "120 " }, left: { 3: true } } });
    expect(mended.held).toBe(false);
    expect(mended.ready[0]?.body).toMatchObject({
      name: "Bar",
      mass_kg: 120,
      count: 2,
      x_m: -0.7,
      roof: false,
    });
  });

  it("says in which row a quotation mark stays open", () => {
    const list = read('name,mass,nature\n"Bar,60,part');
    expect([list.layout.unclosed, list.held]).toEqual([2, true]);
  });
});

describe("units", () => {
  it("are the cell's own, else the row's, else the column's", () => {
    const text = "name,weight,unit,nature\nA,10 kg,lb,part\nB,10,lbs,part\nC,10,,part";
    const masses = read(text, { said: { units: { mass_kg: "g" } } }).ready.map(({ body }) => body.mass_kg);
    expect(masses).toEqual([10, 10 * POUND, 0.01]);
  });

  it("stand in brackets or at the end of a heading", () => {
    const units = (title: string) =>
      read(`name,${title}\nA,1`).layout.columns.map(({ field, unit }) => `${field?.name} ${unit}`)[1];
    expect(["Mass [lb]", "weight lbs", "kg", "x mm", "Place (in)", "position"].map(units)).toEqual([
      ...["mass_kg lb", "mass_kg lb", "mass_kg kg", "x_m mm", "x_m in", "x_m m"],
    ]);
  });

  it("of a capacity in gallons of no country have to be chosen", () => {
    const text = "name,capacity (gal),holds\nMain,20,fuel\nSub,15,fuel";
    const { questions } = read(text, { kind: "tank" });
    expect(questions.map(({ kind, field }) => [kind, field.name])).toEqual([["unit", "capacity_l"]]);
    const { ready } = read(text, { kind: "tank", said: { units: { capacity_l: "gal_imp" } } });
    expect(ready[0]?.body.capacity_l).toBeCloseTo(20 * 4.54609, 12); // UK Units of Measurement Regulations
  });
});

describe("columns", () => {
  it("can be chosen against the guess, each field once", () => {
    const text = "what,heavy,nature\nBar,60,part";
    expect(read(text).layout.columns[1]?.field).toBeNull();
    const { ready } = read(text, { said: { fields: { 1: "mass_kg" } } });
    expect(ready[0]?.body.mass_kg).toBe(60);
    const moved = read("mass,weight\n1,2", { said: { fields: { 1: "mass_kg" } } });
    expect(moved.layout.columns.map(({ field }) => field?.name)).toEqual([undefined, "mass_kg"]);
  });

  it("need no headings", () => {
    const { layout } = read("Bar\t60\nRack\t28");
    expect([layout.header, layout.rows.length]).toEqual([false, 2]);
    const said = { fields: { 0: "name", 1: "mass_kg" }, all: { nature: "part" } };
    expect(read("Bar\t60\nRack\t28", { said }).ready.map(({ body }) => body.name)).toEqual(["Bar", "Rack"]);
  });

  it("take choices in the words that people use", () => {
    const text = "name,type,known,stage,trailer\nA,bolted on,scales,on order,wagtail\nB,cargo,guess,fitted,";
    const { ready } = read(text, {}, [row("trailer", "t", { name: "Wagtail" })]);
    expect(ready.map(({ body }) => body)).toEqual([
      { name: "A", nature: "part", known_by: "weighed", stage: "on_order", trailer_id: "t" },
      { name: "B", nature: "load", known_by: "estimate", stage: "fitted" },
    ]);
  });
});

describe("beside the items that are there", () => {
  const bar = row("item", "a", { name: "Front bar", nature: "part", mass_kg: 60, x_m: -0.7, roof: true });
  const list = (text: string, said: Settings = {}) => read(text, { said }, [bar]);

  it("one of the same name is a change of what differs, and only that", () => {
    const { lines, ready } = list("name,mass,place\nfront  BAR,132.3 lb,-0.7");
    expect(lines[0]?.fate).toBe("change");
    expect(ready).toEqual([
      {
        ...{ kind: "item", edits: bar },
        body: { mass_kg: 132.3 * POUND, as_typed: { mass_kg: ["132.3", "lb"] } },
      },
    ]);
  });

  it("a blank cell changes nothing, and the same figure in another unit neither", () => {
    const { lines, ready } = list("name,mass,place\nFront bar,60000 g,");
    expect([lines[0]?.fate, ready.length]).toEqual(["same", 0]);
  });

  it("a change may be left out", () => {
    const { ready, counts } = list("name,mass\nFront bar,61", { left: { 2: true } });
    expect([ready.length, counts]).toEqual([0, { left: 1 }]);
  });

  it("the second of one name is new", () => {
    const { lines } = list("name,mass,nature\nFront bar,61,part\nFront bar,12,part");
    expect(lines.map(({ fate }) => fate)).toEqual(["change", "new"]);
  });
});
