/** All that a screen shows of a list as it stands: laid out, read, and set beside the book. Pure. */
import type { Book } from "@/services/answers";
import { entriesOf, type FillBook, fillLines } from "@/services/lists/fill_lines";
import { layOut } from "@/services/lists/layout";
import type { Here } from "@/services/lists/moments";
import { planLines } from "@/services/lists/plan_lines";
import { readRows } from "@/services/lists/rows";
import type { Layout, Line, ListField, Question, ReadRow, Settings } from "@/services/lists/spec";
import { type WaterBook, waterLines } from "@/services/lists/water_lines";
import type { Listed } from "@/services/records";
import { fuelTanks } from "../fuel/entry";
import { fieldsOf, recordsOf } from "./kinds";

/** What a person has put in, kept as a draft. */
export interface ListForm {
  readonly kind: string;
  readonly text: string;
  readonly file: { readonly name: string; readonly encoding: string } | null;
  readonly said: Settings;
}

export const MOST_ROWS = 10_000;

export const EMPTY: ListForm = { kind: "item", text: "", file: null, said: {} };

export interface Reading {
  readonly fields: readonly ListField[];
  readonly layout: Layout;
  readonly questions: readonly Question[];
  readonly lines: readonly Line[];
  readonly counts: Readonly<Record<string, number>>;
  /** How many rows would be written, and as what. */
  readonly taken: number;
  readonly ready: readonly Listed[];
  /** Something has to be answered, put right or left out first. */
  readonly held: boolean;
}

export function readList({ kind, text, said }: ListForm, book: Book, here: Here): Reading {
  const fields = fieldsOf(kind, book);
  const layout = layOut(text, fields, said);
  const read = readRows(layout, fields, said);
  const columns = layout.columns.map((one) => one.field);
  // what waits for an answer is not missed as well
  const clear = fields.filter((field) => !read.questions.some((one) => one.field === field));
  const list = { rows: read.rows, fields: clear, columns, said, here };
  const found =
    kind === "fill"
      ? fillLines(list, fillBook(book))
      : kind === "water"
        ? waterLines(list, waterBook(book))
        : planLines(read.rows, recordsOf(kind, book), clear, columns, said);
  const questions = [...read.questions, ...found.questions, ...currencyOf(read.rows, fields, columns)];
  const { lines } = found;
  const taken = lines.filter(({ left, fate }) => !left && fate !== "wrong" && fate !== "same");
  const counts: Record<string, number> = {};
  for (const { fate, left } of lines) {
    const name = fate === "there" ? (left ? "there" : "new") : left ? "left" : fate;
    counts[name] = (counts[name] ?? 0) + 1;
  }
  return {
    ...{ fields, layout, questions, lines, counts, taken: taken.length },
    ready:
      kind === "fill" ? entriesOf(taken) : taken.map(({ body, target }) => ({ kind, body, edits: target })),
    held: questions.length > 0 || layout.unclosed !== null || Boolean(counts.wrong),
  };
}

function waterBook({ waters, tanks }: Book): WaterBook {
  const there = tanks.filter(({ body }) => ["water", "grey", "waste"].includes(body.holds));
  return { waters, tank_id: there.length === 1 ? there[0]!.id : null };
}

function fillBook(book: Book): FillBook {
  const tanks = fuelTanks(book);
  return { fills: book.fills, tank_id: tanks.length === 1 ? tanks[0]!.id : null };
}

/** Prices need a currency: asked once where no column has it. */
function currencyOf(
  rows: readonly ReadRow[],
  fields: readonly ListField[],
  columns: readonly (ListField | null)[],
): Question[] {
  const field = fields.find((one) => one.name === "currency");
  const lacking = rows.some(({ values }) => values.price && !values.currency);
  return field && lacking && !columns.includes(field) ? [{ kind: "all", field }] : [];
}
