import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseNumber } from "@/units/parse";
import { readTyped } from "@/units/typed";

const numbers: [string, string][] = [
  ["1", "1"],
  ["0", "0"],
  ["007", "7"],
  ["1,5", "1.5"],
  ["1.5", "1.5"],
  ["45.10", "45.10"],
  ["45,10", "45.10"],
  ["1.234,5", "1234.5"],
  ["1,234.5", "1234.5"],
  ["1 234,5", "1234.5"],
  ["1'234.5", "1234.5"],
  ["1’234,5", "1234.5"],
  ["1\u00a0234", "1234"],
  ["1\u202f234", "1234"],
  ["12 345 678", "12345678"],
  ["1,234,567", "1234567"],
  ["1.234.567", "1234567"],
  ["1.234.567,89", "1234567.89"],
  ["1,234,567.89", "1234567.89"],
  [",5", "0.5"],
  [".5", "0.5"],
  ["5,", "5"],
  ["5.", "5"],
  ["1340", "1340"],
  ["1340 ", "1340"],
  [" 1340", "1340"],
  ["-5", "-5"],
  ["\u22125", "-5"],
  ["\u20135", "-5"],
  ["+5", "5"],
  ["0,234", "0.234"],
  ["0.234", "0.234"],
  ["1234,567", "1234.567"],
  ["1234.567", "1234.567"],
  ["1,2345", "1.2345"],
  ["1.23", "1.23"],
  ["12.5", "12.5"],
  ["\u0661\u0662\u0663", "123"],
  ["\u06f1\u06f2", "12"],
  ["\u0967\u0968", "12"],
  ["\u0661\u066b\u0665", "1.5"],
  ["1\u066c234", "1234"],
  ["100", "100"],
  ["000,5", "0.5"],
]; // prettier-ignore

const wrong = [
  "abc",
  "1,2,3",
  "1.2.3,4",
  "12,34.5",
  "1 23",
  "1 2345",
  "--5",
  "5-",
  "1e5",
  "0x10",
  "1..5",
  "1,,5",
  "12a34",
  "Infinity",
  "NaN",
  "1,234.567,8",
];

describe("numbers as people type them", () => {
  it.each(numbers)("%s is %s", (text, digits) => {
    expect(parseNumber(text)).toMatchObject({ kind: "number", digits });
  });

  it.each(wrong)("%s is refused", (text) => {
    expect(parseNumber(text).kind).not.toBe("number");
  });

  it.each(["1,234", "1.234", "12,345", "123.456"])("%s is asked about", (text) => {
    const parsed = parseNumber(text);
    expect(parsed).toMatchObject({ kind: "ask", choices: [text.replace(",", "."), text.replace(/\D/g, "")] });
  });

  it("blank is blank", () => {
    expect([parseNumber(""), parseNumber("  ")]).toEqual([{ kind: "blank" }, { kind: "blank" }]);
  });

  it("reads back what thirty locales write", () => {
    const locales =
      "en de fr it es pt nl da sv nb fi pl cs sk sl hr hu ro bg el tr uk ru et lv lt ar-EG fa hi de-CH".split(
        " ",
      );
    fc.assert(
      fc.property(
        fc.constantFrom(...locales),
        fc.integer({ min: 1_000_000, max: 999_999_999 }),
        (locale, cents) => {
          const text = new Intl.NumberFormat(locale, { minimumFractionDigits: 2 }).format(cents / 100);
          const parsed = parseNumber(text.replace(/[\u200e\u200f\u061c]/g, ""));
          expect(parsed).toMatchObject({ kind: "number", digits: (cents / 100).toFixed(2) });
        },
      ),
    );
  });
});

describe("a field read", () => {
  const mass = { dimension: "mass", low: 0, high: 10_000, name: "Mass" } as const;

  it.each([
    ["1.5 t", 1500, ["1.5", "t"]],
    ["100 lb", 45.359237, ["100", "lb"]],
    ["12", 12, ["12", "kg"]],
  ])("%s keeps digits and unit", (text, base, as_typed) => {
    expect(readTyped({ text: text as string, unit: "kg" }, mass)).toEqual({ kind: "ok", base, as_typed });
  });

  it("names the field, the value and the range", () => {
    const read = readTyped({ text: "-3", unit: "kg" }, mass);
    expect(read).toEqual({
      kind: "wrong",
      message: "Mass: -3 kg is not possible, it must be 0 to 10000 kg.",
    });
  });

  it("asks which gallon", () => {
    const read = readTyped(
      { text: "12 gal", unit: "L" },
      { dimension: "volume", low: 0, high: 500, name: "Litres" },
    );
    expect(read.kind === "ask" && read.choices.map((one) => one.label)).toEqual([
      "12 US gallons",
      "12 imperial gallons",
    ]);
  });

  const volume = { dimension: "volume", low: 0, high: 9_000, name: "Litres" } as const;
  const readAll = (text: string) => {
    const read = readTyped({ text, unit: "L" }, volume);
    return read.kind === "ask"
      ? read.choices.map((one) => readTyped({ text: one.text, unit: "L" }, volume))
      : [];
  };

  it("a gallon chosen is that gallon", () => {
    const [us, imperial] = readAll("12 gal");
    expect(us).toMatchObject({ as_typed: ["12", "gal_us"] });
    expect(imperial).toMatchObject({ as_typed: ["12", "gal_imp"] });
  });

  it("what could be two numbers of two gallons is asked about twice", () => {
    expect(readAll("1,234 gal").map((one) => one.kind)).toEqual(["ask", "ask"]);
  });

  it("a unit typed behind a number that is asked about stays with it", () => {
    expect(readAll("1,234 US gal")).toMatchObject([
      { as_typed: ["1.2340", "gal_us"] },
      { as_typed: ["1234", "gal_us"] },
    ]);
  });

  it.each([
    ["12 US gal", "gal_us"],
    ["12 U.S. gallons", "gal_us"],
    ["12 imperial gallons", "gal_imp"],
    ["12 imp gal", "gal_imp"],
    ["12 litres", "L"],
    ["120 ml", "mL"],
  ])("%s is in %s", (text, unit) => {
    expect(readTyped({ text, unit: "L" }, volume)).toMatchObject({ as_typed: [expect.any(String), unit] });
  });

  it("a choice offered reads as itself", () => {
    const read = readTyped({ text: "1,234", unit: "kg" }, mass);
    const texts = read.kind === "ask" ? read.choices.map((one) => one.text) : [];
    const bases = texts.map((text) => readTyped({ text, unit: "kg" }, mass));
    expect(bases).toMatchObject([{ base: 1.234 }, { base: 1234 }]);
  });
});
