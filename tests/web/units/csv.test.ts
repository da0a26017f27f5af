import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decodeList, delimiterOf, parseCsv, unharmed, writeCsv } from "@/units/csv";

const records = (text: string, mark = ",") => parseCsv(text, mark).records;

// RFC 4180, section 2: the examples of its seven points
const RFC: readonly (readonly [string, readonly string[][]])[] = [
  [
    "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
    [
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ],
  ],
  [
    "aaa,bbb,ccc\r\nzzz,yyy,xxx",
    [
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ],
  ],
  [
    "field_name,field_name\r\naaa,bbb\r\n",
    [
      ["field_name", "field_name"],
      ["aaa", "bbb"],
    ],
  ],
  [
    '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
    [
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ],
  ],
  [
    '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
    [
      ["aaa", "b\r\nbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ],
  ],
  ['"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
]; // prettier-ignore

describe("reading CSV", () => {
  it.each(RFC)("reads %j as RFC 4180 says", (text, wanted) => {
    expect(records(text)).toEqual(wanted);
  });

  it.each([
    ["a\nb\n", [["a"], ["b"]]],
    ["a\rb", [["a"], ["b"]]],
    ["a\r\n\r\nb", [["a"], [""], ["b"]]],
    ["a,,", [["a", "", ""]]],
    ["\ufeffa", [["a"]]],
    ['6" pipe,x', [['6" pipe', "x"]]],
    ["", []],
  ])("takes %j as spreadsheets write it", (text, wanted) => {
    expect(records(text)).toEqual(wanted);
  });

  it("names the row whose quote is never closed", () => {
    expect(parseCsv('a,b\n"c,d\ne,f', ",").unclosed).toBe(2);
    expect(parseCsv("a,b\nc,d", ",").unclosed).toBeNull();
  });
});

describe("the delimiter", () => {
  it.each([
    ["name,kg\nBar,60\nRack,28", ","],
    ["name;kg\nBar;60,5\nRack;28,0", ";"],
    ["Bar;60,5\nRack;28,0", ";"],
    ["name\tkg\nBar, steel\t60\nRack\t28", "\t"],
    ['name,kg\n"Bar; steel",60\n"Rack; alloy",28', ","],
    ['name,kg\n"Bar, steel","60,5"', ","],
    ["one column", ","],
  ])("of %j is %j", (text, wanted) => {
    expect(delimiterOf(text)).toBe(wanted);
  });
});

describe("the encoding", () => {
  const bytes = (...codes: number[]) => new Uint8Array(codes);

  it("knows UTF-8 with and without its mark", () => {
    expect(decodeList(bytes(0xef, 0xbb, 0xbf, 0xc3, 0xbc))).toEqual({ text: "ü", encoding: "UTF-8" });
    expect(decodeList(bytes(0xc3, 0xbc))).toEqual({ text: "ü", encoding: "UTF-8" });
  });

  it("takes what is no UTF-8 for Windows-1252", () => {
    // code page 1252: 0xfc is u with diaeresis; its signs at 0x80 to 0x9f, which some Node decodes wrongly, are in e2e
    expect(decodeList(bytes(0xfc, 0xe9))).toEqual({ text: "üé", encoding: "Windows-1252" });
  });

  it("knows UTF-16 by its mark", () => {
    expect(decodeList(bytes(0xff, 0xfe, 0x61, 0x00))).toEqual({ text: "a", encoding: "UTF-16" });
    expect(decodeList(bytes(0xfe, 0xff, 0x00, 0x61))).toEqual({ text: "a", encoding: "UTF-16" });
  });
});

describe("writing CSV", () => {
  it("quotes what needs it, ends each record with CRLF and puts the mark of UTF-8 first", () => {
    const text = writeCsv([["a,b", 'c"d', "e\nf", null, -0.6, 1e-7]]);
    expect(text).toBe('\ufeff"a,b","c""d","e\nf",,-0.6,0.0000001\r\n');
  });

  it.each(["=1+1", "+1", "-1", "@x", "\tx", "\rx", "\0x", "＝1", "'=x", "''@"])(
    "lets no spreadsheet run the text %j",
    (text) => {
      const cell = records(writeCsv([[text]]))[0]![0]!;
      expect(cell[0]).toBe("'");
      expect(unharmed(cell)).toBe(text);
    },
  );

  it("leaves numbers numbers, the negative ones too", () => {
    expect(writeCsv([[-5, "-5"]])).toBe("\ufeff-5,'-5\r\n");
  });

  it("reads back whatever was written", () => {
    const cell = fc.oneof(
      fc.string({ unit: "grapheme" }),
      fc.constantFrom("=", "'", "'=", '"', ",", "\r\n", "\n", " x ", "-1", ""),
    );
    const list = fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { minLength: 1 });
    fc.assert(
      fc.property(list, (wanted) => {
        const back = records(writeCsv(wanted)).map((row) => row.map(unharmed));
        expect(back).toEqual(wanted);
      }),
    );
  });

  it("reads back each number to the last bit", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), fc.boolean(), (size, below) => {
        const value = below ? -size : size;
        expect(Number(records(writeCsv([[value]]))[0]?.[0])).toBe(value);
      }),
    );
  });
});
