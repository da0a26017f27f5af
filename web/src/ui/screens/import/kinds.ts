/** The kinds of lists and their fields: of the plan those that its forms ask for, in the words of a column. */
import type { Book, Row } from "@/services/answers";
import { fillCsv, planCsv, type Written, waterCsv } from "@/services/lists/export";
import type { ListField } from "@/services/lists/spec";
import type { BookView } from "@/ui/parts/live";
import { LABELS, words } from "@/ui/text/lists";
import { fuelTanks } from "../fuel/entry";
import { type FieldSpec, KINDS } from "../plan/fields";

/** The kinds of lists that a role may bring in: those of the plan, and the log. */
export function kindsFor(role: BookView["role"]): readonly string[] {
  const [plan, log] = [
    ["item", "tank", "seat"],
    ["fill", "water"],
  ];
  return role === "co_driver" ? log : role === "fitter" ? plan : [...plan, ...log];
}

export function fieldsOf(kind: string, book: Book): ListField[] {
  return kind === "fill" ? fillFields(book) : kind === "water" ? waterFields(book) : planFields(kind, book);
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

function listField(field: FieldSpec, book: Book): ListField[] {
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
    case "day":
      return [{ ...base, type: "day" }];
    case "trailer":
      return [{ ...base, type: "choice", options: [["", VEHICLE], ...named(book.trailers, [VEHICLE])] }];
    case "slots":
      return [{ ...base, type: "slots", trailers: named(book.trailers) }];
    case "person":
      return [{ ...base, type: "choice", options: named(book.people) }];
    case "grey":
      return [
        { ...base, type: "choice", options: named(book.tanks.filter(({ body }) => body.holds === "grey")) },
      ];
    default:
      return [];
  }
}

const VEHICLE = "Vehicle";

/** Records by names that tell them apart: of two of one name the second has a number. */
function named(rows: readonly Row[], taken: readonly string[] = []): [id: string, label: string][] {
  const seen = new Set(taken.map((one) => one.toLowerCase()));
  return rows.map(({ id, body }) => {
    const name = (body.name as string) || words.noName;
    let label = name;
    for (let n = 2; seen.has(label.toLowerCase()); n += 1) label = `${name} (${n})`;
    seen.add(label.toLowerCase());
    return [id, label];
  });
}

/** The tanks of a log: those that are there, and others that have entries. */
function tanksIn(
  book: Book,
  there: readonly Row[],
  entered: ReadonlySet<string>,
): [id: string, label: string][] {
  const others = [...book.tanks, ...book.gone].filter(
    (one) => one.kind === "tank" && entered.has(one.id) && !there.includes(one),
  );
  return named([...there, ...others]);
}

type Unlabelled = Omit<ListField, "label"> & { readonly [more: string]: unknown };

function labelled(fields: readonly Unlabelled[]): ListField[] {
  return fields.map((field) => ({ ...field, label: LABELS[field.name]! }) as ListField);
}

const TEXT = { type: "text", longest: 80 } as const;
/** Coordinates of a place; they are there only where somebody gave them. */
const PLACED = [
  { name: "latitude_deg", type: "number", dimension: "angle", low: -90, high: 90 },
  { name: "longitude_deg", type: "number", dimension: "angle", low: -180, high: 180 },
] as const;
/** When and where an entry was, beside its day. */
const BESIDE: readonly Unlabelled[] = [
  { name: "place", ...TEXT },
  ...PLACED,
  { name: "instant", type: "instant" },
  { name: "zone", ...TEXT },
  { name: "note", ...TEXT, longest: 2000 },
];
const SHARE = { type: "number", dimension: "fraction", low: 0, high: 1 } as const;

/** The fields of a fuel log, one row for what went into one tank. */
function fillFields(book: Book): ListField[] {
  const there = fuelTanks(book);
  const entered = new Set<string>(
    book.fills.flatMap(({ body }) => body.lines.map((one: Row["body"]) => one.tank_id)),
  );
  const tanks = tanksIn(book, there, entered);
  const fields: readonly Unlabelled[] = [
    { name: "day", type: "day", needed: true },
    { name: "time", type: "time" },
    { name: "odometer_km", type: "number", dimension: "distance", low: 0, high: 5_000_000 },
    { name: "litres_l", type: "number", dimension: "volume", low: 0, high: 5_000, needed: true },
    { name: "full", type: "yes_no", needed: true },
    { name: "tank_id", type: "choice", options: tanks, needed: there.length !== 1 },
    { name: "price", type: "amount" },
    { name: "currency", type: "currency" },
    { name: "missed_before", type: "yes_no" },
    { name: "towing", type: "yes_no" },
    { name: "measured", type: "yes_no" },
    { name: "litres_u_l", type: "number", dimension: "volume", low: 0, high: 500 },
    { name: "sealed", ...SHARE },
    { name: "gravel", ...SHARE },
    { name: "sand", ...SHARE },
    ...BESIDE,
  ];
  return labelled(fields);
}

/** The fields of a water log, one row an entry. */
function waterFields(book: Book): ListField[] {
  const there = book.tanks.filter(({ body }) => ["water", "grey", "waste"].includes(body.holds));
  const entered = new Set<string>(book.waters.map(({ body }) => body.tank_id));
  const options = (of: Readonly<Record<string, string>>) => Object.entries(of);
  const fields: readonly Unlabelled[] = [
    { name: "day", type: "day", needed: true },
    { name: "time", type: "time" },
    { name: "tank_id", type: "choice", options: tanksIn(book, there, entered), needed: there.length !== 1 },
    { name: "action", type: "choice", options: options(words.deeds), needed: true },
    { name: "litres_l", type: "number", dimension: "volume", low: 0, high: 5_000, needed: true },
    { name: "measured", type: "yes_no" },
    { name: "litres_u_l", type: "number", dimension: "volume", low: 0, high: 500 },
    { name: "full", type: "yes_no" },
    { name: "everything", type: "yes_no" },
    { name: "source", type: "choice", options: options(words.sources) },
    { name: "drinkable", type: "choice", options: options(words.drinkable), needed: true },
    ...BESIDE,
  ];
  return labelled(fields);
}

/** The lists that a book gives out: how many rows each has, and its text. */
export function listsOf(
  book: Book,
): readonly { kind: string; rows: number; text: (how?: Written) => string }[] {
  const plan = ["item", "tank", "seat"].map((kind) => {
    const records = recordsOf(kind, book);
    return {
      kind,
      rows: records.length,
      text: (how?: Written) => planCsv(records, planFields(kind, book), how),
    };
  });
  const { fills, waters } = book;
  return [
    ...plan,
    { kind: "fill", rows: fills.length, text: (how) => fillCsv(fills, fillFields(book), how) },
    { kind: "water", rows: waters.length, text: (how) => waterCsv(waters, waterFields(book), how) },
  ];
}

export function recordsOf(kind: string, { items, tanks, seats }: Book): readonly Row[] {
  return kind === "item" ? items : kind === "tank" ? tanks : seats;
}
