/** Rows of a listed log as entries: when each happened, what is wrong with it, and whether the book has it already. */
import type { Body } from "@/domain/book";
import { type Here, lateOf, type Moment, momentOf } from "./moments";
import { needed } from "./needed";
import type { PlanLines } from "./plan_lines";
import type { Line, ListField, ReadRow, Settings } from "./spec";

/** A log's rows as they were read, and how. */
export interface LogList {
  readonly rows: readonly ReadRow[];
  readonly fields: readonly ListField[];
  readonly columns: readonly (ListField | null)[];
  readonly said: Settings;
  readonly here: Here;
}

/** What is a log's own: the entry of a row, and whether such an entry is known; from then on it is. */
export interface LogKind {
  readonly bodyOf: (values: Body, at: Moment | null) => Body;
  readonly isKnown: (body: Body, timed: boolean) => boolean;
}

/** What becomes of each row. An entry that the log has, or a row that the list has twice, is left out unless wanted. */
export function linesOfLog({ rows, fields, columns, said, here }: LogList, kind: LogKind): PlanLines {
  const { left = {} } = said;
  const need = needed(fields, columns);
  const lines = rows.map(({ row, values, errors }): Line => {
    const at = momentOf(values, here);
    const late = lateOf(at, here, fields, columns, row.cells);
    const all = [...errors, ...need.errorsOf(values, errors), ...late];
    const body = kind.bodyOf(values, at);
    const there = all.length === 0 && kind.isKnown(body, at?.timed ?? false);
    const fate = all.length > 0 ? "wrong" : there ? "there" : "new";
    const shown = { ...values, day: at?.shown };
    return { row, fate, body, values: shown, target: null, errors: all, left: left[row.number] ?? there };
  });
  return { lines, questions: need.questions() };
}
