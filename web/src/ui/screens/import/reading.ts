/** All that a screen shows of a list as it stands: laid out, read, and set beside the book. Pure. */
import type { Book } from "@/services/answers";
import { layOut } from "@/services/lists/layout";
import { planLines } from "@/services/lists/plan_lines";
import { readRows } from "@/services/lists/rows";
import type { Layout, Line, ListField, Question, Settings } from "@/services/lists/spec";
import type { Listed } from "@/services/records";
import { planFields, recordsOf } from "./kinds";

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
  /** What would be written. */
  readonly ready: readonly Listed[];
  /** Something has to be answered, put right or left out first. */
  readonly held: boolean;
}

export function readList({ kind, text, said }: ListForm, book: Book): Reading {
  const fields = planFields(kind, book);
  const layout = layOut(text, fields, said);
  const read = readRows(layout, fields, said);
  const columns = layout.columns.map((one) => one.field);
  const found = planLines(read.rows, recordsOf(kind, book), fields, columns, said);
  const questions = [...read.questions, ...found.questions];
  const { lines } = found;
  const taken = lines.filter(({ left, fate }) => !left && (fate === "new" || fate === "change"));
  const counts: Record<string, number> = {};
  for (const { fate, left } of lines) counts[left ? "left" : fate] = (counts[left ? "left" : fate] ?? 0) + 1;
  return {
    ...{ fields, layout, questions, lines, counts },
    ready: taken.map(({ body, target }) => ({ kind, body, edits: target })),
    held: questions.length > 0 || layout.unclosed !== null || Boolean(counts.wrong),
  };
}
