/** The kinds of lists and their fields: of the plan those that its forms ask for, in the words of a column. */
import type { Book, Row } from "@/services/answers";
import type { ListField } from "@/services/lists/spec";
import { LABELS } from "@/ui/text/lists";
import { type FieldSpec, KINDS } from "../plan/fields";

export const PLAN_LISTS = ["item", "tank", "seat"] as const;

/** The fields of a list of plan records. */
export function planFields(kind: string, book: Book): ListField[] {
  const spec = KINDS[kind]!;
  const fields = [...spec.first, ...spec.more].flatMap((field) => listField(field, book));
  const unit: ListField[] =
    kind === "item" ? [{ type: "unit", name: "mass_unit", label: LABELS.mass_unit! }] : [];
  return [...fields, ...unit, { type: "text", name: "note", label: LABELS.note!, longest: 2000 }];
}

const NEEDED = new Set(["name", "nature", "holds"]);

function listField(field: FieldSpec, { trailers }: Book): ListField[] {
  const base = { name: field.name, label: LABELS[field.name] ?? field.label, needed: NEEDED.has(field.name) };
  switch (field.type) {
    case "number":
      return [{ ...base, type: "number", dimension: field.dimension, low: field.low, high: field.high }];
    case "count":
      return [{ ...base, type: "count", low: field.low ?? 1, high: field.high }];
    case "choice":
      return [{ ...base, type: "choice", options: field.options }];
    case "text":
      return [{ ...base, type: "text", longest: 80 }];
    case "yes_no":
      return [{ ...base, type: "yes_no" }];
    case "trailer": {
      const named = trailers.map(({ id, body }) => [id, body.name as string] as const);
      return [{ ...base, type: "choice", options: [["", "Vehicle"], ...named] }];
    }
    default:
      return [];
  }
}

export function recordsOf(kind: string, { items, tanks, seats }: Book): readonly Row[] {
  return kind === "item" ? items : kind === "tank" ? tanks : seats;
}
