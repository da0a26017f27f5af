/** A level read as it stands in the form, and the record that comes of it. Pure. */
import type { Book, Row } from "@/services/answers";
import { readingU } from "@/services/levels";
import { lastOdometer } from "@/services/way";
import type { Standing } from "@/ui/parts/drawing/tank_picture";
import { typedOf } from "@/ui/screens/fuel/entry";
import { twoSided } from "@/ui/text/figures";
import { words } from "@/ui/text/tank";
import { type Choice, type Read, readTyped, type TypedNumber } from "@/units/typed";

export interface DipForm {
  /** Litres or a share in %, as typed or as touched on the picture. */
  readonly amount: TypedNumber;
  /** Not typed: there are no digits to keep. */
  readonly touched: boolean;
  readonly how: string;
  /** One standard uncertainty; blank is that of how it was read. */
  readonly u: TypedNumber;
  readonly odometer: TypedNumber;
}

export type DipField = "amount" | "u" | "odometer";

export interface ReadDip {
  readonly body: Row["body"] | null;
  readonly errors: Readonly<Partial<Record<DipField, string>>>;
  readonly asks: Readonly<Partial<Record<DipField, readonly Choice[]>>>;
  /** Where it stands in the picture; null while nothing can be read. */
  readonly standing: Standing | null;
}

const BLANK = { text: "", unit: "L" };

/** Nothing read yet; it is read as it was the last time. */
export function emptyDip(book: Book, tank: Row): DipForm {
  const last = book.dips.findLast(({ body }) => body.tank_id === tank.id);
  const usual = tank.body.holds === "fuel" ? "gauge" : "tube";
  const how = last?.body.how ?? usual;
  return { amount: BLANK, touched: false, how, u: BLANK, odometer: { text: "", unit: "km" } };
}

/** The form of an entry that is to be corrected, as it was typed. */
export function formOfDip({ body }: Row): DipForm {
  const share = body.litres_l == null;
  const typed = share ? typedOf(body, "level", "1") : typedOf(body, "litres_l", "L");
  const bare = typed.unit === "1"; // a share without a unit stands as % in the form
  return {
    amount: bare ? inPercent(body.level) : typed,
    touched: bare || !body.as_typed?.[share ? "level" : "litres_l"],
    how: body.how,
    u: body.litres_u_l != null ? typedOf(body, "litres_u_l", "L") : inPercent(body.level_u ?? null),
    odometer: typedOf(body, "odometer_km", "km"),
  };
}

function inPercent(share: number | null): TypedNumber {
  return {
    text: share === null ? "" : String(Number((100 * share).toFixed(6))),
    unit: share === null ? "L" : "%",
  };
}

/** Litres set by touching the picture. */
export function atLitres(form: DipForm, litres: number): DipForm {
  return { ...form, amount: { text: String(litres), unit: "L" }, touched: true };
}

/** A share in quarters, as lamps show it. */
export function atQuarter(form: DipForm, quarters: number): DipForm {
  return { ...form, amount: { text: String(25 * quarters), unit: "%" }, touched: true, how: "lamps" };
}

/** Which quarter stands in the form, or null. */
export function quarterIn({ amount, how }: DipForm): number | null {
  const quarters = how === "lamps" && amount.unit === "%" ? Number(amount.text) / 25 : Number.NaN;
  return amount.text !== "" && [0, 1, 2, 3, 4].includes(quarters) ? quarters : null;
}

export function readDip(tank: Row, form: DipForm, at: string, zone: string): ReadDip {
  const capacity_l: number = tank.body.capacity_l;
  const amount = readAmount(form.amount, capacity_l);
  const u = readU(form.u, capacity_l);
  const odometer = readTyped(form.odometer, ODOMETER);
  const read = { amount, u, odometer };
  const errors: Partial<Record<DipField, string>> = {};
  const asks: Partial<Record<DipField, readonly Choice[]>> = {};
  for (const [name, one] of Object.entries(read) as [DipField, Read][]) {
    if (one.kind === "wrong") errors[name] = one.message;
    if (one.kind === "ask") asks[name] = one.choices;
  }
  if (amount.kind === "blank") errors.amount = words.needLevel;
  const standing = amount.kind === "ok" ? standingOf(tank, form, amount.base, u) : null;
  if (amount.kind !== "ok" || Object.keys({ ...errors, ...asks }).length > 0)
    return { body: null, errors, asks, standing };
  const share = form.amount.unit === "%";
  const field = share ? "level" : "litres_l";
  const typed: Record<string, readonly [string, string]> = form.touched ? {} : { [field]: amount.as_typed };
  const body: Record<string, unknown> = { at, zone, tank_id: tank.id, how: form.how, [field]: amount.base };
  if (u.kind === "ok") {
    const own = share ? "level_u" : "litres_u_l";
    const inShare = form.u.unit === "%";
    body[own] = share === inShare ? u.base : share ? u.base / capacity_l : u.base * capacity_l;
    if (share === inShare) typed[own] = u.as_typed;
  }
  if (odometer.kind === "ok") {
    body.odometer_km = odometer.base;
    typed.odometer_km = odometer.as_typed;
  }
  if (Object.keys(typed).length > 0) body.as_typed = typed;
  return { body, errors, asks, standing };
}

/** What the picture and the hint say of the ±, litres. */
export function uOf(tank: Row, form: DipForm): number {
  return tank.body.capacity_l * readingU(tank.body, form.how);
}

function standingOf(tank: Row, form: DipForm, base: number, u: Read): Standing {
  const capacity_l: number = tank.body.capacity_l;
  const litres = form.amount.unit === "%" ? base * capacity_l : base;
  const own = u.kind === "ok" ? (form.u.unit === "%" ? u.base * capacity_l : u.base) : uOf(tank, form);
  return { litres, reach: twoSided(own) };
}

const ODOMETER = { dimension: "distance", low: 0, high: 5_000_000, name: words.odometer } as const;
const BEYOND = 1.1; // a level read may lie a little over a capacity that is not exact

function readAmount(value: TypedNumber, capacity_l: number): Read {
  const name = words.amount;
  if (value.unit === "%") return readTyped(value, { dimension: "fraction", low: 0, high: 1, name });
  const high = Math.round(10 * BEYOND * capacity_l) / 10;
  return readTyped(value, { dimension: "volume", low: 0, high, name });
}

function readU(value: TypedNumber, capacity_l: number): Read {
  const name = words.u;
  if (value.unit === "%") return readTyped(value, { dimension: "fraction", low: 0, high: 1, name });
  return readTyped(value, { dimension: "volume", low: 0, high: capacity_l, name });
}

export { lastOdometer };
