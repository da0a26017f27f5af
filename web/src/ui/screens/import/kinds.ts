/** The kinds of lists and their fields: of the plan those that its forms ask for, in the words of a column. */
import type { Book, Row } from "@/services/answers";
import { fillCsv, planCsv, waterCsv } from "@/services/lists/export";
import type { ListField } from "@/services/lists/spec";
import type { BookView } from "@/ui/parts/live";
import { LABELS } from "@/ui/text/lists";
import { fuelTanks } from "../fuel/entry";
import { type FieldSpec, KINDS } from "../plan/fields";

/** The kinds of lists that a role may bring in: those of the plan, and the log. */
export function kindsFor(role: BookView["role"]): readonly string[] {
  const plan = ["item", "tank", "seat"];
  return role === "co_driver" ? ["fill"] : role === "fitter" ? plan : [...plan, "fill"];
}

export function fieldsOf(kind: string, book: Book): ListField[] {
  return kind === "fill" ? fillFields(book) : planFields(kind, book);
}

/** The fields of a list of plan records. */
function planFields(kind: string, book: Book): ListField[] {
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

const TEXT = { type: "text", longest: 80 } as const;
const SHARE = { type: "number", dimension: "fraction", low: 0, high: 1 } as const;

/** The fields of a fuel log, one row for what went into one tank. */
function fillFields(book: Book): ListField[] {
  const tanks = fuelTanks(book).map(({ id, body }) => [id, body.name as string] as const);
  const fields: readonly (Omit<ListField, "label"> & { readonly [more: string]: unknown })[] = [
    { name: "day", type: "day", needed: true },
    { name: "time", type: "time" },
    { name: "odometer_km", type: "number", dimension: "distance", low: 0, high: 5_000_000 },
    { name: "litres_l", type: "number", dimension: "volume", low: 0, high: 5_000, needed: true },
    { name: "full", type: "yes_no", needed: true },
    { name: "tank_id", type: "choice", options: tanks, needed: tanks.length !== 1 },
    { name: "price", type: "amount" },
    { name: "currency", type: "currency" },
    { name: "missed_before", type: "yes_no" },
    { name: "towing", type: "yes_no" },
    { name: "measured", type: "yes_no" },
    { name: "sealed", ...SHARE },
    { name: "gravel", ...SHARE },
    { name: "sand", ...SHARE },
    { name: "place", ...TEXT },
    { name: "instant", type: "instant" },
    { name: "zone", ...TEXT },
    { name: "note", ...TEXT, longest: 2000 },
  ];
  return fields.map((field) => ({ ...field, label: LABELS[field.name]! }) as ListField);
}

/** The fields of the water log, which only goes out. */
function waterFields({ tanks }: Book): ListField[] {
  const named = tanks.map(({ id, body }) => [id, body.name as string] as const);
  return [
    { name: "day", label: LABELS.day!, type: "day" },
    { name: "time", label: LABELS.time!, type: "time" },
    { name: "tank_id", label: LABELS.tank_id!, type: "choice", options: named },
    { name: "action", label: LABELS.action!, ...TEXT },
    { name: "litres_l", label: LABELS.litres_l!, type: "number", dimension: "volume", low: 0, high: 5_000 },
    { name: "measured", label: LABELS.measured!, type: "yes_no" },
    { name: "full", label: LABELS.full!, type: "yes_no" },
    { name: "source", label: LABELS.source!, ...TEXT },
    { name: "drinkable", label: LABELS.drinkable!, ...TEXT },
    { name: "place", label: LABELS.place!, ...TEXT },
    { name: "instant", label: LABELS.instant!, type: "instant" },
    { name: "zone", label: LABELS.zone!, ...TEXT },
    { name: "note", label: LABELS.note!, ...TEXT },
  ];
}

/** The lists that a book gives out: how many rows each has, and its text. */
export function listsOf(book: Book): readonly { kind: string; rows: number; text: () => string }[] {
  const plan = ["item", "tank", "seat"].map((kind) => {
    const records = recordsOf(kind, book);
    return { kind, rows: records.length, text: () => planCsv(records, planFields(kind, book)) };
  });
  const { fills, waters } = book;
  return [
    ...plan,
    { kind: "fill", rows: fills.length, text: () => fillCsv(fills, fillFields(book)) },
    { kind: "water", rows: waters.length, text: () => waterCsv(waters, waterFields(book)) },
  ];
}

export function recordsOf(kind: string, { items, tanks, seats }: Book): readonly Row[] {
  return kind === "item" ? items : kind === "tank" ? tanks : seats;
}
