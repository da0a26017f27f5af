/** A row of a list in words and figures. */
import { slotsText } from "@/services/lists/slots";
import type { Line, ListField } from "@/services/lists/spec";
import { figure } from "@/ui/text/figures";
import { words } from "@/ui/text/lists";
import { BASE_UNIT, unitLabel } from "@/units/units";
import type { Reading } from "./reading";

/** Of each kind the figure on the right of its row, the first that there is. */
const MAIN = ["mass_kg", "capacity_l", "litres_l", "x_m"];

/** Said by the row's name, or of no use to read. */
const TOLD = new Set(["name", "count", "day", "time", "instant", "zone"]);

export function nameOf({ values, target, row }: Line, { layout }: Reading): string {
  const column = layout.columns.find((one) => one.field?.name === "name")?.index ?? 0;
  const name: string = target?.body.name ?? values.name ?? values.day ?? row.cells[column] ?? "";
  return values.count > 1 ? `${name} × ${values.count}` : name || words.row(row.number);
}

export function figureOf(line: Line, { fields }: Reading): string {
  const field = mainOf(line, fields);
  if (!field) return "";
  const text = shown(field, line.values[field.name]);
  return field.name === "mass_kg" && line.values.count > 1 ? words.each(text) : text;
}

function mainOf({ values }: Line, fields: readonly ListField[]): ListField | undefined {
  const name = MAIN.find((one) => typeof values[one] === "number");
  return fields.find((field) => field.name === name);
}

/** The rest of the row: of a change what it changes, else each field with what will be kept. */
export function noteOf(line: Line, { fields }: Reading): string {
  const { values, target, fate } = line;
  if (fate === "wrong") return "";
  const main = mainOf(line, fields);
  const told = fields.filter(({ name }) => values[name] !== undefined && !TOLD.has(name));
  const text = told.flatMap((field) => {
    const typed = typedOf(field, line);
    const after = shown(field, values[field.name]) + (typed ? ` (${typed})` : "");
    if (target) return [words.fromTo(field.label, shown(field, target.body[field.name]), after)];
    if (field === main) return typed ? [typed] : [];
    return [field.type === "choice" ? after : `${field.label} ${after}`];
  });
  return [fate === "there" ? words.there : "", ...text].filter(Boolean).join(" · ");
}

/** What was typed, where that was in another unit. */
function typedOf(field: ListField, { values }: Line): string {
  const typed = values.as_typed?.[field.name];
  if (!typed || field.type !== "number" || typed[1] === BASE_UNIT[field.dimension]) return "";
  return `${typed[0]} ${unitLabel(typed[1])}`;
}

function shown(field: ListField, value: unknown): string {
  if (value === undefined || (value === null && field.type !== "choice")) return words.blank;
  if (field.type === "number") {
    const digits = field.dimension === "angle" ? DEGREE_DIGITS : 2;
    return `${round(value as number, digits)} ${unitLabel(BASE_UNIT[field.dimension])}`;
  }
  if (field.type === "yes_no") return value ? words.yes : words.no;
  if (field.type === "slots") return slotsText(value as Line["body"][], field.trailers);
  if (field.type !== "choice") return String(value);
  return field.options.find(([one]) => one === (value ?? ""))?.[1] ?? words.blank;
}

/** A hundred-thousandth of a degree is about a metre. */
const DEGREE_DIGITS = 5;

/** To at most so many decimals, no more than there are. */
function round(value: number, digits: number): string {
  return figure(value, digits).replace(/\.?0+$/, "");
}
