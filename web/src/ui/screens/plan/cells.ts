/** The plan's lists as cells: which columns there are, what stands in them, and what typing in one changes. */
import type { Book, Row } from "@/services/answers";
import { massUOf } from "@/services/plan";
import { words } from "@/ui/text/plan";
import type { Choice } from "@/units/typed";
import { BASE_UNIT, unitLabel } from "@/units/units";
import { type FieldSpec, KINDS } from "./fields";
import { changed, type FormValue, isTyped, readFields, shown } from "./form";
import { ON, optionsOf } from "./on";

export const LISTED = ["item", "tank", "seat"] as const;

/** A cell that somebody is typing in, with the revision that was shown when it was opened. */
export interface Typing {
  readonly kind: string;
  readonly id: string;
  readonly rev: string;
  readonly name: string;
  readonly value: FormValue;
}

export interface Trouble {
  readonly message: string;
  readonly asks: readonly Choice[];
}

const NAMES: Readonly<Record<string, readonly string[]>> = {
  item: ["name", "mass_kg", "known_by", "mass_u_kg", "x_m", "on", "count"],
  tank: ["name", "holds", "capacity_l", "x_m", "on"],
  seat: ["name", "x_m", "usual_person_id"],
};

/** What a phone asks in place; the rest is in the record's form. */
const IN_PLACE: Readonly<Record<string, readonly string[]>> = {
  item: ["mass_kg", "x_m"],
  tank: ["capacity_l", "x_m"],
  seat: ["x_m"],
};

export function columnsOf(kind: string, book: Book): readonly FieldSpec[] {
  const names = NAMES[kind]!.filter((name) => name !== "on" || kind === "item" || book.trailers.length > 0);
  return names.map((name) => (name === "on" ? ON : fieldOf(kind, name)));
}

export function inPlace(kind: string): readonly FieldSpec[] {
  return IN_PLACE[kind]!.map((name) => fieldOf(kind, name));
}

export function fieldOf(kind: string, name: string): FieldSpec {
  const { first, more } = KINDS[kind]!;
  return [...first, ...more].find((one) => one.name === name)!;
}

/** What a cell is opened with: a figure as it was typed, its unit beside it where that is not the column's. */
export function opened(column: FieldSpec, body: Row["body"]): string {
  if (column.name === "on") return body.trailer_id ?? (body.roof ? "roof" : "");
  const value = shown(column, body);
  if (typeof value === "string") return value;
  if (!isTyped(value)) return "";
  const unit = column.type === "number" && value.unit === BASE_UNIT[column.dimension] ? "" : value.unit;
  return `${value.text} ${unitLabel(unit)}`.trim();
}

export interface Told {
  readonly text: string;
  /** Nobody stated it: it counts as this. */
  readonly assumed: boolean;
}

/** What a cell shows. */
export function told(column: FieldSpec, body: Row["body"], book: Book): Told {
  const text = opened(column, body);
  const stage = column.name === "name" && words.stages[body.stage];
  if (stage) return { text: `${text} (${stage})`, assumed: false };
  if (column.name === "mass_u_kg" && text === "")
    return { text: body.mass_kg == null ? "" : short(massUOf(body)), assumed: true };
  if (column.name === "count" && text === "") return { text: "1", assumed: true };
  if (column.name === "known_by" && text === "") return { text: labelIn(column, "estimate"), assumed: true };
  const options = optionsOf(column, book);
  if (options.length > 0)
    return { text: options.find(([value]) => value === text)?.[1] ?? "", assumed: false };
  const typed = body.as_typed?.[column.name];
  if (column.type !== "number" || text === "" || typed) return { text, assumed: false };
  return { text: short(body[column.name]), assumed: false };
}

/** No more digits than a figure needs: three of them, and all before the point. */
function short(value: number): string {
  return String(Math.abs(value) >= 100 ? Math.round(value * 10) / 10 : Number(value.toPrecision(3)));
}

function labelIn(column: FieldSpec, value: string): string {
  return (column.type === "choice" && column.options.find(([one]) => one === value)?.[1]) || "";
}

export type ReadCell =
  | { readonly change: Row["body"] | null; readonly trouble?: undefined }
  | { readonly trouble: Trouble };

/** The edit that a cell asks for: null where nothing differs from the record. */
export function readCell(column: FieldSpec, value: FormValue, body: Row["body"]): ReadCell {
  if (value === opened(column, body)) return { change: null };
  if (column.name === "on") return { change: orNull(moved(value as string, body)) };
  // a figure typed without a unit is in the column's
  const typed =
    column.type === "number" && typeof value === "string"
      ? { text: value, unit: BASE_UNIT[column.dimension] }
      : value;
  const { fields, errors, asks } = readFields([column], { [column.name]: typed }, body);
  const message = errors[column.name];
  if (message) return { trouble: { message, asks: asks[column.name] ?? [] } };
  return { change: orNull(changed(body, fields)) };
}

function moved(on: string, body: Row["body"]): Row["body"] {
  const trailer_id = on === "roof" || on === "" ? null : on;
  return {
    ...((body.trailer_id ?? null) === trailer_id ? {} : { trailer_id }),
    ...(Boolean(body.roof) === (on === "roof") ? {} : { roof: on === "roof" }),
  };
}

function orNull(change: Row["body"]): Row["body"] | null {
  return Object.keys(change).length > 0 ? change : null;
}
