/** What a new record cannot do without: asked once where the list has no column for it, else told of each row. */
import type { Body } from "@/domain/book";
import type { CellError, ListField, Question } from "./spec";

export interface Needed {
  /** The errors of one row that becomes a new record. */
  readonly errorsOf: (values: Body, errors: readonly CellError[]) => CellError[];
  /** What was missed so far and has no column. */
  readonly questions: () => Question[];
}

/** Watches over the rows of one list. */
export function needed(fields: readonly ListField[], columns: readonly (ListField | null)[]): Needed {
  const wanted = fields.filter((field) => field.needed);
  const missed = new Set<ListField>();
  return {
    errorsOf: (values, errors) => {
      const lacking = wanted
        .filter(({ name }) => values[name] === undefined)
        .filter((field) => !errors.some((one) => one.field === field));
      const asked = (field: ListField) => field.type !== "text" && !columns.includes(field);
      for (const field of lacking.filter(asked)) missed.add(field);
      return lacking
        .filter((field) => !asked(field))
        .map((field) => ({ field, column: columns.indexOf(field), text: "", message: null, why: "blank" }));
    },
    questions: () => [...missed].map((field) => ({ kind: "all", field })),
  };
}
