/** A water log that is continued says what it says when it is read anew, and runs nothing again. */
import { describe, expect, it } from "vitest";
import { type Body, openBook } from "@/domain/book";
import { waterLogOf } from "@/domain/supplies";

const row = (kind: string, id: string, order: number, body: Body) => ({
  ...{ id, kind, rev: `${id}-1`, body, order },
  author: "a",
});
const rows = [
  row("vehicle", "v", 0, { name: "Wren" }),
  row("tank", "t", 1, { name: "Water", holds: "water", capacity_l: 60 }),
  row("seat", "s", 2, { name: "Left" }),
  row("person", "p", 3, { name: "Ada", usual_seat_id: "s" }),
  ...Array.from({ length: 80 }, (_, n) => {
    const about = { at: new Date(Date.UTC(2020, 0, 1 + n)).toISOString().replace(".000", ""), tank_id: "t" };
    return n % 3
      ? row("water", `w${n}`, 4 + n, { ...about, action: "fill", litres_l: 4 + (n % 5), drinkable: "yes" })
      : row("dip", `w${n}`, 4 + n, { ...about, how: "tube", level: 0.4 + (n % 4) / 10 });
  }),
];
const until = "2021-01-01T00:00:00Z";

describe("a water log continued", () => {
  it("says what it says when it is read anew", () => {
    const before = waterLogOf({ book: openBook({ rows: rows.slice(0, -1) }), until });
    const book = openBook({ rows });
    const on = waterLogOf({ book, until, previous: before })!;
    const { kept: _, ...journal } = on.journal;
    const { kept: __, ...anew } = waterLogOf({ book, until })!.journal;
    expect(journal).toEqual(anew);
    expect(on.journal.outcomes[60]).toBe(before!.journal.outcomes[60]);
  });
});
