/** A route as it stands in its form, and the record that comes of it. Pure; what the form does not show is kept. */
import type { Book } from "@/services/answers";
import type { Body } from "@/services/road";
import { type Form, isAsked, readFields, shown } from "@/ui/screens/plan/form";
import type { FieldSpec } from "@/ui/screens/plan/spec";
import { km } from "@/ui/text/road";
import { ask } from "@/ui/text/route_form";
import { type Choice, readTyped } from "@/units/typed";
import { fieldsOf, HEAD, type Part, SURFACES } from "./fields";

export const PARTS: readonly Part[] = ["legs", "supplies", "changes"];

/** One line of a list: what is typed, and what the record held beside it. */
export interface Line {
  readonly form: Form;
  readonly kept: Body;
}

export type Lists = Readonly<Record<Part, readonly Line[]>>;

export interface RouteForm extends Lists {
  readonly head: Form;
  /** Who travels; null: whoever is aboard. */
  readonly people: readonly string[] | null;
}

export function formOf(body: Body, book: Book): RouteForm {
  const lines = (part: Part): Line[] =>
    ((body[part] ?? []) as readonly Body[]).map((one) => lineOf(part, one, book));
  return {
    head: filled(HEAD, body),
    people: body.people_ids ?? null,
    legs: lines("legs"),
    supplies: lines("supplies"),
    changes: lines("changes"),
  };
}

/** A line of the form from one of the record. */
export function lineOf(part: Part, one: Body, book: Book): Line {
  return { form: filled(fieldsOf(part, book), SHOWN[part](one)), kept: one };
}

function filled(fields: readonly FieldSpec[], body: Body): Form {
  return Object.fromEntries(fields.map((field) => [field.name, shown(field, body)]));
}

/** Record to fields: a leg by its surfaces, a supply by what it has, a change by whom or what it is about. */
const SHOWN: Readonly<Record<Part, (one: Body) => Body>> = {
  legs: (leg) => {
    const { distance_km = 0, surface = {}, as_typed, days, label, towing } = leg;
    const typed = as_typed?.distance_km;
    const parts = SURFACES.filter((name) => distance_km * (surface[name] ?? 0) > 0);
    const kms = parts.map((name) => [name, Number((distance_km * surface[name]).toPrecision(12))]);
    const one = typed && parts.length === 1 ? { as_typed: { ...as_typed, [parts[0]!]: typed } } : {};
    const tows = towing === true ? "yes" : towing === false ? "no" : "now";
    return { ...Object.fromEntries(kms), ...one, days, label, towing: tows };
  },
  supplies: (one) => ({ ...one, has: one.fuel ? (one.water ? "both" : "fuel") : one.water ? "water" : null }),
  changes: (one) => ({ ...one, [one.what]: one.subject_id ?? null }),
};

/** By `part:number` or `head`, and then by field. */
export type Wrongs = Readonly<Record<string, Readonly<Record<string, string>>>>;
export type Asks = Readonly<Record<string, Readonly<Record<string, readonly Choice[]>>>>;

export interface ReadRoute {
  readonly body: Body | null;
  readonly errors: Wrongs;
  readonly asks: Asks;
}

export function readRoute(form: RouteForm, book: Book): ReadRoute {
  const errors: Record<string, Record<string, string>> = {};
  const asks: Record<string, Readonly<Record<string, readonly Choice[]>>> = {};
  const take = (key: string, fields: readonly FieldSpec[], typed: Form): Body => {
    const asked = fields.filter((field) => isAsked(field, typed));
    const read = readFields(asked, typed, {});
    if (Object.keys(read.errors).length > 0) errors[key] = { ...read.errors };
    if (Object.keys(read.asks).length > 0) asks[key] = read.asks;
    return read.fields;
  };
  const head = take("head", HEAD, form.head);
  const total = lengthOf(form);
  const lists = PARTS.map((part) => {
    const fields = fieldsOf(part, book);
    const lines = form[part].map(({ form: typed, kept }, n) => {
      const key = `${part}:${n}`;
      const read = take(key, fields, typed);
      const lacks = LACKING[part](read, total);
      if (lacks && !errors[key]) errors[key] = lacks;
      return KEPT[part](read, kept);
    });
    return [part, lines] as const;
  });
  if (form.legs.length === 0) errors.head = { ...errors.head, name: ask.needLeg };
  if (Object.keys(errors).length > 0) return { body: null, errors, asks };
  return { body: { ...head, ...Object.fromEntries(lists), people_ids: form.people }, errors, asks };
}

/** Kilometres of the legs as far as they can be read. */
export function lengthOf({ legs }: Pick<RouteForm, "legs">): number {
  return legs.reduce((sum, leg) => sum + kmOf(leg), 0);
}

export function kmOf({ form }: Line): number {
  return SURFACES.reduce((sum, name) => sum + baseOf(form[name]), 0);
}

/** A distance as it stands in a field, in km; 0 while it cannot be read. */
export function baseOf(value: Form[string] | undefined): number {
  if (!value || typeof value !== "object" || !("text" in value)) return 0;
  const read = readTyped(value, { dimension: "distance", low: 0, high: 50_000, name: "" });
  return read.kind === "ok" ? read.base : 0;
}

type Lacks = Record<string, string> | null;

const LACKING: Readonly<Record<Part, (read: Body, total: number) => Lacks>> = {
  legs: (leg) => (SURFACES.some((name) => leg[name] > 0) || leg.days > 0 ? null : { sealed: ask.needKm }),
  supplies: (read, total) => lacks(read, total, "has") ?? halfPlaced(read),
  changes: (read, total) => {
    const load = read.what === "load" ? ["mass_kg", "x_m"] : [read.what].filter((one) => one !== "grey");
    return lacks(read, total, "what", ...load);
  },
};

function halfPlaced({ latitude_deg, longitude_deg }: Body): Lacks {
  if ((latitude_deg == null) === (longitude_deg == null)) return null;
  return { [latitude_deg == null ? "latitude_deg" : "longitude_deg"]: ask.needBoth };
}

function lacks(read: Body, total: number, ...needed: string[]): Lacks {
  const blank = ["at_km", ...needed].find((name) => read[name] == null);
  if (blank) return { [blank]: ask.need };
  return read.at_km > total + 1e-6 ? { at_km: ask.beyond(km(read.at_km), km(total)) } : null;
}

const KEPT: Readonly<Record<Part, (read: Body, kept: Body) => Body>> = {
  legs: (read, kept) => {
    const parts = SURFACES.filter((name) => read[name] > 0);
    const distance_km: number = parts.reduce((sum, name) => sum + read[name], 0);
    const share = (name: string) =>
      distance_km > 0 ? (read[name] ?? 0) / distance_km : name === "sealed" ? 1 : 0;
    const surface = Object.fromEntries(SURFACES.map((name) => [name, share(name)]));
    const typed = read.as_typed?.[parts[0] ?? ""];
    const own = {
      ...(typed && parts.length === 1 ? { distance_km: typed } : {}),
      ...(read.as_typed?.days ? { days: read.as_typed.days } : {}),
    };
    const towing = read.towing === "yes" ? true : read.towing === "no" ? false : null;
    return whole({ ...kept, distance_km, surface, days: read.days, label: read.label, towing }, own);
  },
  supplies: ({ has, as_typed = {}, ...read }, kept) => {
    const [fuel, water] = [has !== "water", has !== "fuel"];
    return whole({ ...kept, ...read, certain: Boolean(read.certain), fuel, water }, as_typed);
  },
  changes: ({ person, item, as_typed = {}, ...read }) => {
    const subject_id = read.what === "person" ? person : read.what === "item" ? item : null;
    return whole({ ...read, subject_id, aboard: read.aboard ?? true }, as_typed);
  },
};

/** Without blanks, with what was typed of what is there. */
function whole(body: Body, typed: Body): Body {
  const fields = Object.entries(body).filter(
    ([name, value]) => name !== "as_typed" && value != null && value !== "",
  );
  return { ...Object.fromEntries(fields), ...(Object.keys(typed).length > 0 ? { as_typed: typed } : {}) };
}
