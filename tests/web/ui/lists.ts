/** A book with records, and a list read beside it. */
import { type Body, openBook, type Row } from "@/domain/book";
import { EMPTY, type ListForm, readList } from "@/ui/screens/import/reading";

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
