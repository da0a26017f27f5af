import { describe, expect, it } from "vitest";
import type { Row } from "@/domain/book";
import type { Settings } from "@/services/lists/spec";
import { wrongCell } from "@/ui/text/lists";
import { read, row } from "./lists";

const MAIN = row("tank", "main", { name: "Main", holds: "fuel", capacity_l: 80 });
const SUB = row("tank", "sub", { name: "Sub", holds: "fuel", capacity_l: 60 });

function log(text: string, said: Settings = {}, rows: readonly Row[] = [MAIN]) {
  return read(text, { kind: "fill", said }, rows);
}

describe("a fuel log", () => {
  it("comes in with miles, gallons, prices and the clock of the place", () => {
    const text =
      "Date,Time,Odometer (mi),US gal,Full,Price,Currency,Notes\n13/02/2026,5:05 pm,74107,12.5,y,$45.10,usd,hot\n";
    const { ready, held } = log(text);
    expect(held).toBe(false);
    expect(ready).toEqual([
      {
        kind: "fill",
        body: {
          ...{ at: "2026-02-13T07:35:00.000Z", zone: "Australia/Darwin", note: "hot" }, // 9 h 30 min ahead of UTC
          odometer_km: 74107 * 1.609344,
          as_typed: { odometer_km: ["74107", "mi"] },
          lines: [
            {
              ...{ tank_id: "main", measured: true, full: true, litres_l: 12.5 * 3.785411784 },
              as_typed: { litres_l: ["12.5", "gal_us"] },
            },
          ],
          price: { amount: "45.10", currency: "USD" },
        },
      },
    ]);
  });

  it("asks once for what could be two days, and takes either answer", () => {
    const text = "date,litres,full\n03/04/2026,40,yes\n05/06/2026,41,yes";
    const asked = log(text);
    expect(asked.questions.map(({ kind }) => kind)).toEqual(["days"]);
    expect([asked.held, asked.counts]).toEqual([true, { new: 2 }]);
    const days = (dates: "dmy" | "mdy") =>
      log(text, { dates }).ready.map(({ body }) => (body.at as string).slice(0, 10));
    expect(days("dmy")).toEqual(["2026-04-03", "2026-06-05"]);
    expect(days("mdy")).toEqual(["2026-03-04", "2026-05-06"]);
    expect(log(`${text}\n13/06/2026,30,no`).questions).toEqual([]);
  });

  it("asks for all rows whether they were full, into which tank, and in which currency", () => {
    const text = "date,litres,price\n2026-03-04,40,80";
    const named = (said: Settings) => log(text, said, [MAIN, SUB]).questions.map(({ field }) => field.name);
    expect(named({})).toEqual(["full", "tank_id", "currency"]);
    const all = { full: "yes", tank_id: "sub", currency: "aud" };
    expect(named({ all })).toEqual([]);
    const { body } = log(text, { all }, [MAIN, SUB]).ready[0]!;
    expect(body.lines).toMatchObject([{ tank_id: "sub", full: true, litres_l: 40 }]);
    expect(body.price).toEqual({ amount: "80", currency: "AUD" });
  });

  it("names what is wrong cell by cell", () => {
    const text = "date,time,odometer,litres,full,tank\nsoon,late,x,6000,so,Drum\n2027-01-01,,1,2,no,Main";
    const told = log(text, {}, [MAIN, SUB]).lines.flatMap(({ errors }) => errors.map(wrongCell));
    expect(told).toEqual([
      'Date: "soon" is not a day, such as 2026-03-04.',
      'Time: "late" is not a time, such as 17:05.',
      'Odometer: "x" is not a number: type digits, such as 1340 or 1,5.',
      "Litres: 6000 L is not possible, it must be 0 to 5000 L.",
      'Full to the click: "so" is neither yes nor no.',
      'Tank: "Drum" is none of Main, Sub.',
      'Date: "2027-01-01" is later than now.',
    ]);
  });

  it("gives a blank cell of what is needed a place to be put right", () => {
    const text = "date,litres,full\n2026-03-04,40,yes\n2026-03-05,,yes";
    expect(log(text).lines[1]?.errors).toMatchObject([{ column: 1, why: "blank" }]);
    expect(log(text, { cells: { "3:1": "41" } }).ready).toHaveLength(2);
  });

  it("takes shares of the surface in whatever they are told", () => {
    const { ready } = log("date,litres,full,sealed (%),gravel (%)\n2026-03-04,40,yes,75,25");
    expect(ready[0]?.body.surface).toEqual({ sealed: 0.75, gravel: 0.25, sand: 0 });
  });
});

describe("several tanks at one stop", () => {
  const text = "date,time,odometer,litres,full,tank,price,currency\n";

  it("are one entry with a line each", () => {
    const rows = "2026-03-04,10:00,1000,40,yes,Main,90,AUD\n2026-03-04,10:00,1000,20,no,Sub,,\n";
    const { ready, taken } = log(text + rows, {}, [MAIN, SUB]);
    expect(taken).toBe(2);
    expect(ready).toHaveLength(1);
    expect(ready[0]?.body.lines).toMatchObject([{ tank_id: "main" }, { tank_id: "sub", full: false }]);
    expect(ready[0]?.body.price).toEqual({ amount: "90", currency: "AUD" });
  });

  it("stay two where the second says something else, goes into the same tank, or has no time", () => {
    const two = (rows: string) => log(text + rows, {}, [MAIN, SUB]).ready.length;
    expect(two("2026-03-04,10:00,1000,40,yes,Main,90,AUD\n2026-03-04,10:00,1000,20,no,Sub,45,AUD\n")).toBe(2);
    expect(two("2026-03-04,10:00,1000,40,yes,Main,,\n2026-03-04,10:00,1000,20,no,Main,,\n")).toBe(2);
    expect(two("2026-03-04,,1000,40,yes,Main,,\n2026-03-04,,1000,20,no,Sub,,\n")).toBe(2);
  });
});

describe("what is there already", () => {
  const there = row("fill", "f", {
    ...{ at: "2026-03-04T01:00:00Z", zone: "Australia/Darwin", odometer_km: 1000 },
    lines: [{ tank_id: "main", litres_l: 40, full: true }],
  });
  const fates = (rows: string, said: Settings = {}) =>
    log(`date,odometer,litres,full\n${rows}`, said, [MAIN, there]).lines.map(({ fate, left }) => [
      fate,
      left,
    ]);

  it("is shown and left out: the same litres at the same odometer, whichever the day", () => {
    expect(fates("2026-03-05,1000.4,40.04,yes\n2026-03-05,1001,40,yes\n2026-03-04,1000,41,yes")).toEqual([
      ["there", true],
      ["new", false],
      ["new", false],
    ]);
  });

  it("without an odometer is told by the day", () => {
    expect(fates("2026-03-04,,40,yes\n2026-03-06,,40,yes")).toEqual([
      ["there", true],
      ["new", false],
    ]);
  });

  it("comes in if that is wanted", () => {
    const text = "date,odometer,litres,full\n2026-03-04,1000,40,yes";
    expect(log(text, {}, [MAIN, there]).ready).toEqual([]);
    expect(log(text, { left: { 2: false } }, [MAIN, there]).ready).toHaveLength(1);
  });

  it("twice in the list counts once", () => {
    expect(fates("2026-04-04,2000,40,yes\n2026-04-04,2000,40,yes")).toEqual([
      ["new", false],
      ["there", true],
    ]);
  });
});

describe("a long log", () => {
  it("comes in whole, each row once", () => {
    const rows = Array.from(
      { length: 5_000 },
      (_, i) => `${2000 + (i % 26)}-03-04,${i * 500},${20 + (i % 60)},yes`,
    );
    const { ready } = log(["date,odometer,litres,full", ...rows, ...rows].join("\n"));
    expect(ready.map(({ body }) => body.odometer_km)).toEqual(rows.map((_, i) => i * 500));
  });
});
