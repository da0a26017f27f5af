/** From what stands in a form to the fields of a record, and back. Pure; nothing typed is ever dropped. */
import type { Row } from "@/services/answers";
import { same } from "@/services/records";
import type { TypedNumber } from "@/ui/parts/forms";
import { words } from "@/ui/text/record";
import { type Choice, type Read as ReadNumber, readTyped } from "@/units/typed";
import { BASE_UNIT } from "@/units/units";
import type { CountSpec, FieldSpec, KindSpec } from "./spec";

/** A place that an item may move to, as it stands in the form. */
export interface SlotForm {
  readonly label: string;
  readonly x: TypedNumber;
  /** Blank for the vehicle, "roof", or a trailer's id. */
  readonly on: string;
  /** What the form does not ask for. */
  readonly rest: Row["body"];
}

export type FormValue = string | boolean | null | TypedNumber | readonly SlotForm[];
export type Form = Readonly<Record<string, FormValue>>;
export type FormErrors = Readonly<Record<string, string>>;

export interface Read {
  readonly fields: Row["body"];
  readonly errors: FormErrors;
  /** What a figure that could be read in two ways might mean. */
  readonly asks: Readonly<Record<string, readonly Choice[]>>;
}

/** A form filled from a record: figures as they were typed, where that is known. */
export function formOf(spec: KindSpec, body: Row["body"]): Form {
  return Object.fromEntries([...spec.first, ...spec.more].map((field) => [field.name, shown(field, body)]));
}

/** What stands in the field of a record before anybody types. */
export function shown(field: FieldSpec, body: Row["body"]): FormValue {
  const value = body[field.name] ?? null;
  if (field.type === "number") {
    const typed = body.as_typed?.[field.name];
    if (typed) return { text: typed[0], unit: typed[1] };
    return { text: value === null ? "" : String(value), unit: BASE_UNIT[field.dimension] };
  }
  if (field.type === "count") return value === null ? "" : String(value);
  if (field.type === "slots") return (value ?? []).map(slotShown);
  return value;
}

function slotShown({ label = "", x_m, roof, trailer_id, ...rest }: Row["body"]): SlotForm {
  const x = { text: String(x_m), unit: BASE_UNIT.length };
  return { label, x, on: trailer_id ?? (roof ? "roof" : ""), rest };
}

/**
 * The record's fields from the form, with an error in words for each that cannot be read. A figure that stands as in
 * the `stored` record is that figure: only what somebody types is read, and asked about.
 */
export function readForm(spec: KindSpec, form: Form, stored: Row["body"] = {}): Read {
  return readFields([...spec.first, ...spec.more], form, stored);
}

interface Reading {
  readonly fields: Record<string, unknown>;
  readonly typed: Record<string, readonly [string, string]>;
  readonly errors: Record<string, string>;
  readonly asks: Record<string, readonly Choice[]>;
}

export function readFields(list: readonly FieldSpec[], form: Form, stored: Row["body"]): Read {
  const into: Reading = { fields: {}, typed: {}, errors: {}, asks: {} };
  const { fields, typed, errors, asks } = into;
  for (const field of list) {
    const value = form[field.name] ?? null;
    if (field.type === "number") readNumber(field, value, stored, into);
    else if (field.type === "count") readCount(field, value, fields, errors);
    else if (field.type === "slots") readSlots(field.name, value, stored, into);
    else if (value !== null && value !== "") fields[field.name] = value;
    else if (field.name === "name") errors.name = words.needName;
    else if (NEEDED.has(field.name)) errors[field.name] = words.needChoice;
    else if (field.type === "text" && stored[field.name]) fields[field.name] = "";
    else if (field.type !== "text" && field.type !== "choice") fields[field.name] = null;
  }
  if (Object.keys(typed).length > 0) fields.as_typed = typed;
  return { fields, errors, asks };
}

const NEEDED = new Set(["nature", "holds", "of"]);

type NumberField = Extract<FieldSpec, { type: "number" }>;

function readNumber(field: NumberField, value: FormValue, stored: Row["body"], into: Reading): void {
  if (!isTyped(value)) return;
  const { fields, typed, errors, asks } = into;
  const { name, dimension, low, high, label } = field;
  if (stored[name] != null && same(value, shown(field, stored))) {
    fields[name] = stored[name];
    if (stored.as_typed?.[name]) typed[name] = stored.as_typed[name];
    return;
  }
  const read = readTyped(value, { dimension, low, high, name: label });
  if (read.kind === "ok") {
    fields[name] = read.base;
    typed[name] = read.as_typed;
  } else if (read.kind === "blank") fields[name] = null;
  else if (read.kind === "wrong") errors[name] = read.message;
  else {
    asks[name] = read.choices;
    errors[name] = words.ask(read.choices.map((one) => one.label));
  }
}

export function isTyped(value: FormValue): value is TypedNumber {
  return value !== null && typeof value === "object" && !Array.isArray(value);
}

/** Each place needs its metres; a list that was not there stays away while it is empty. */
function readSlots(name: string, value: FormValue, stored: Row["body"], into: Reading): void {
  if (!Array.isArray(value) || (value.length === 0 && !stored[name])) return;
  const before: readonly SlotForm[] = (stored[name] ?? []).map(slotShown);
  const list: Row["body"][] = [];
  for (const [k, { label, x, on, rest }] of value.entries()) {
    const own = before.findIndex((one) => same(one.x, x));
    const asked = { dimension: "length", low: -3, high: 20, name: words.slotPlace(k + 1) } as const;
    const read = own >= 0 ? null : readTyped(x, asked);
    const x_m = read === null ? stored[name][own].x_m : read.kind === "ok" ? read.base : null;
    if (x_m === null) into.errors[name] = whyNoPlace(read!, k);
    const place = on === "roof" ? { roof: true } : on === "" ? {} : { trailer_id: on };
    list.push({ ...rest, ...(label.trim() ? { label: label.trim() } : {}), x_m, ...place });
  }
  into.fields[name] = list;
}

function whyNoPlace(read: ReadNumber, k: number): string {
  if (read.kind === "wrong") return read.message;
  if (read.kind === "ask") return words.ask(read.choices.map((one) => one.label));
  return words.needSlotPlace(k + 1);
}

function readCount(
  field: CountSpec,
  value: FormValue,
  fields: Record<string, unknown>,
  errors: Record<string, string>,
): void {
  const { low = 1, high, nullable = false } = field;
  const text = typeof value === "string" ? value.trim() : "";
  if (text === "" && nullable) fields[field.name] = null;
  if (text === "") return;
  const count = Number(text);
  if (Number.isInteger(count) && count >= low && count <= high) fields[field.name] = count;
  else errors[field.name] = words.wrongCount(field.label, text, low, high);
}

/** Whether a field is asked for, as the form stands. */
export function isAsked(field: FieldSpec, form: Form): boolean {
  if (!field.only_if) return true;
  const [name, values] = field.only_if;
  return values.some((value) => value === form[name]);
}

/** Only what differs from the record, so that an edit never overwrites what it did not touch. */
export function changed(before: Row["body"], fields: Row["body"]): Row["body"] {
  const out: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(fields)) {
    if (name !== "as_typed" && !same(before[name] ?? null, value ?? null)) out[name] = value;
  }
  const typed = Object.entries(fields.as_typed ?? {}).filter(([name]) => name in out);
  if (typed.length > 0) out.as_typed = Object.fromEntries(typed);
  return out;
}
