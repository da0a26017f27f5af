/** What a list is made of: its fields, how a person set it to be read, and what reading it gave. */
import type { Body, Row } from "@/domain/book";
import type { DayOrder } from "@/units/dates";
import type { Mark } from "@/units/typed";
import type { Dimension } from "@/units/units";
import type { NamedTrailers } from "./slots";

interface Base {
  readonly name: string;
  readonly label: string;
  /** A new record cannot do without it. */
  readonly needed?: boolean;
}

/** One field of a list. A choice's value "" stands for null: none of the others. */
export type ListField = Base &
  (
    | { readonly type: "number"; readonly dimension: Dimension; readonly low: number; readonly high: number }
    | { readonly type: "count"; readonly low: number; readonly high: number }
    | { readonly type: "choice"; readonly options: readonly (readonly [value: string, label: string])[] }
    | { readonly type: "text"; readonly longest: number }
    | { readonly type: "slots"; readonly trailers: NamedTrailers }
    | { readonly type: "yes_no" | "day" | "time" | "instant" | "amount" | "currency" | "unit" }
  );

/** How a list is to be read, as far as a person has said so; the rest is recognised. Columns count from 0. */
export interface Settings {
  readonly delimiter?: string;
  readonly header?: boolean;
  readonly decimal?: Mark;
  /** Column -> field, "" where it is not read. */
  readonly fields?: Readonly<Record<string, string>>;
  /** Field -> unit of all its figures that name none. */
  readonly units?: Readonly<Record<string, string>>;
  /** Field -> the decimal mark of its figures, asked about. */
  readonly marks?: Readonly<Record<string, Mark>>;
  readonly dates?: DayOrder;
  /** Field -> what holds for all rows, where the list has no such column. */
  readonly all?: Readonly<Record<string, string>>;
  /** "row:column" -> a cell put right by hand. */
  readonly cells?: Readonly<Record<string, string>>;
  /** Row -> left out or not, where a person has said so. */
  readonly left?: Readonly<Record<string, boolean>>;
}

export interface ListRow {
  /** As a spreadsheet counts it, the first row of the file being 1. */
  readonly number: number;
  readonly cells: readonly string[];
}

export interface Column {
  readonly index: number;
  readonly title: string;
  readonly field: ListField | null;
  readonly samples: readonly string[];
  /** The unit of its figures; "" where it has to be chosen. */
  readonly unit: string;
}

export interface Layout {
  readonly delimiter: string;
  readonly header: boolean;
  readonly decimal: Mark | null;
  readonly dates: DayOrder | null;
  readonly columns: readonly Column[];
  readonly rows: readonly ListRow[];
  /** A row whose quote is never closed. */
  readonly unclosed: number | null;
}

/** What has to be said before the rows can be read, once for a whole column. */
export type Question =
  | {
      readonly kind: "figures";
      readonly field: ListField;
      readonly text: string;
      readonly readings: Readonly<Record<Mark, string>>;
    }
  | { readonly kind: "days"; readonly field: ListField; readonly text: string }
  | { readonly kind: "unit"; readonly field: ListField }
  | { readonly kind: "all"; readonly field: ListField };

/** A cell that cannot be kept: what stands in it, and why not. */
export interface CellError {
  readonly field: ListField;
  readonly column: number;
  readonly text: string;
  /** The sentence of a figure; null where `why` has to be put in words. */
  readonly message: string | null;
  readonly why:
    | "figure"
    | "whole"
    | "choice"
    | "yes_no"
    | "long"
    | "day"
    | "late"
    | "time"
    | "amount"
    | "currency"
    | "blank"
    | "slots"
    | "unit";
}

export interface ReadRow {
  readonly row: ListRow;
  /** Field -> value, with `as_typed`; blank cells are not in it. */
  readonly values: Body;
  readonly errors: readonly CellError[];
}

/** What becomes of a row: `there` is already in the book, `same` changes nothing of what is. */
export type Fate = "new" | "change" | "same" | "there" | "wrong";

export interface Line {
  readonly row: ListRow;
  readonly fate: Fate;
  /** The body of a new record, or the changed fields of one that is there. */
  readonly body: Body;
  /** What it shows, by the names of the fields. */
  readonly values: Body;
  /** The record that is there. */
  readonly target: Row | null;
  readonly errors: readonly CellError[];
  readonly left: boolean;
}
