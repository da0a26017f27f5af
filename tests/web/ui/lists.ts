/** A book with records, and a list read beside it or given out; random names and figures for both. */
import fc from "fast-check";
import { type Body, openBook, type Row } from "@/domain/book";
import { PLAIN, type Written } from "@/services/lists/export";
import { listsOf } from "@/ui/screens/import/kinds";
import { EMPTY, type ListForm, readList } from "@/ui/screens/import/reading";
import { parseCsv } from "@/units/csv";

export const HERE = { now: "2026-11-26T00:00:00.000Z", zone: "Australia/Darwin" };

export function row(kind: string, id: string, body: Body): Row {
  return { id, kind, rev: `rev ${id}`, body };
}

export function bookOf(rows: readonly Row[] = []) {
  return openBook({ rows: [row("vehicle", "v", { name: "Wren", wheelbase_m: 3.2 }), ...rows] });
}

export function read(text: string, form: Partial<ListForm> = {}, rows: readonly Row[] = []) {
  return readList({ ...EMPTY, ...form, text }, bookOf(rows), HERE);
}

export const ELSEWHERE: readonly Written[] = [
  PLAIN,
  { units: {}, mark: "," },
  { units: { mass: "lb", length: "in", volume: "gal_us", distance: "mi" }, mark: "." },
  { units: { mass: "t", length: "mm", volume: "gal_imp" }, mark: "," },
];

export function text(kind: string, rows: readonly Row[], how: Written = PLAIN): string {
  return listsOf(bookOf(rows))
    .find((one) => one.kind === kind)!
    .text(how);
}

export function withoutTyped({ as_typed: _, ...body }: Body): Body {
  const { lines } = body;
  return lines ? { ...body, lines: lines.map(withoutTyped) } : body;
}

export const name = fc
  .oneof(
    fc.string({ unit: "grapheme" }),
    fc.constantFrom(
      "=1+1",
      "-5",
      "+",
      "@x",
      "'=",
      'a"b',
      "a,b;c\td",
      "1,5",
      "a;=1+1",
      "x,-2;@y",
      "a,'=b",
      "'",
    ),
  )
  .map((one) => one.replace(/[\p{Cc}\p{Cs}]/gu, "").trim())
  .filter((one) => one !== "" && one.length <= 80);
/** A file has twenty decimals: what is less than a millionth is not asked of it. */
export const figure = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((one) => (Math.abs(one) < 1e-6 ? 0 : one));
export const flag = fc.boolean();
/** Alike entries of a random log are different ones: each row is wanted. */
export function allIn(listed: string, between = ","): Record<string, boolean> {
  return Object.fromEntries(parseCsv(listed, between).records.map((_, i) => [i + 1, false]));
}
