/** A fill as it stands in the form, and the record that comes of it. Pure. */
import type { Book, Row } from "@/services/answers";
import { lastOdometer } from "@/services/way";
import { words } from "@/ui/text/fuel";
import { parseNumber } from "@/units/parse";
import { type Choice, readTyped, type TypedNumber, type Wanted } from "@/units/typed";

export type Surface = "sealed" | "gravel" | "sand" | "mixed";
const SURFACES = ["sealed", "gravel", "sand"] as const;

export interface FillForm {
  readonly odometer: TypedNumber;
  readonly lines: Readonly<Record<string, TypedNumber>>;
  /** Full to the click, by tank; a tank without an answer is asked about. */
  readonly full: Readonly<Record<string, boolean>>;
  readonly about: boolean;
  readonly missed: boolean;
  readonly surface: Surface;
  readonly shares: Readonly<Record<(typeof SURFACES)[number], string>>;
  readonly towing: boolean;
  readonly price: string;
  readonly currency: string;
}

export interface FillErrors {
  readonly odometer?: string;
  readonly lines?: Readonly<Record<string, string>>;
  readonly ask?: Readonly<Record<string, readonly Choice[]>>;
  readonly full?: Readonly<Record<string, string>>;
  readonly shares?: string;
  readonly price?: string;
}

/** An empty form: surface and currency of the last fill are the guess for this one. */
export function emptyFill(book: Book, towing: boolean): FillForm {
  const last: Row["body"] = book.fills.at(-1)?.body ?? {};
  const told = [...book.fills, ...book.dips, ...book.events].filter(({ body }) => body.surface);
  const latest = told.reduce<Row | null>((one, row) => (one && one.body.at > row.body.at ? one : row), null);
  return {
    odometer: { text: "", unit: "km" },
    lines: {},
    full: {},
    about: false,
    missed: false,
    surface: SURFACES.find((name) => latest?.body.surface[name] === 1) ?? "sealed",
    shares: { sealed: "", gravel: "", sand: "" },
    towing,
    price: "",
    currency: last.price?.currency ?? "",
  };
}

/** The form of an entry that is to be corrected, as it was typed. */
export function formOfFill({ body }: Row): FillForm {
  const { surface = null, lines } = body;
  const only = surfaceIn(surface);
  const by = <T>(of: (line: Row["body"]) => T): Record<string, T> =>
    Object.fromEntries(lines.map((line: Row["body"]) => [line.tank_id, of(line)]));
  const km = (share: number) => (only === "mixed" ? String(Math.round(share * 1000) / 10) : "");
  return {
    odometer: typedOf(body, "odometer_km", "km"),
    lines: by((line) => typedOf(line, "litres_l", "L")),
    full: by((line) => line.full),
    about: lines.some((line: Row["body"]) => line.measured === false),
    missed: body.missed_before === true,
    surface: only,
    shares: { sealed: km(surface?.sealed), gravel: km(surface?.gravel), sand: km(surface?.sand) },
    towing: body.towing === true,
    price: body.price?.amount ?? "",
    currency: body.price?.currency ?? "",
  };
}

/** A figure of a record as it was typed, or as it stands. */
export function typedOf(body: Row["body"], name: string, unit: string): TypedNumber {
  const typed = body.as_typed?.[name];
  if (typed) return { text: typed[0], unit: typed[1] };
  const text = body[name] == null ? "" : String(body[name]);
  return { text: /\.\d{3}$/.test(text) ? `${text}0` : text, unit }; // a sole group of three would be asked about
}

/** Something possible but unlikely: asked about, never in the way. */
export interface Doubt {
  readonly words: string;
  readonly tank_id?: string;
  readonly meant?: Choice;
}

export interface ReadFill {
  readonly body: Row["body"] | null;
  readonly errors: FillErrors;
  readonly doubts: readonly Doubt[];
}

/** `past`: the entry has its place in the past, before others. */
export function readFill(book: Book, form: FillForm, at: string, zone: string, past = false): ReadFill {
  const odometer = readTyped(form.odometer, ODOMETER);
  const read = readLines(book, form);
  const surface = readSurface(form);
  const price = readPrice(form);
  const errors: FillErrors = {
    ...(odometer.kind === "wrong" ? { odometer: odometer.message } : {}),
    ...(odometer.kind === "ask" ? { odometer: words.ask(odometer.choices.map((one) => one.label)) } : {}),
    ...(some(read.errors) ? { lines: read.errors } : {}),
    ...(some(read.ask) ? { ask: read.ask } : {}),
    ...(some(read.full) ? { full: read.full } : {}),
    ...(surface === null ? { shares: words.wrongShares } : {}),
    ...(price === "wrong" ? { price: words.wrongPrice } : {}),
  };
  if (some(errors)) return { body: null, errors, doubts: [] };
  const known = odometer.kind === "ok" ? odometer : null;
  const body = {
    at,
    zone,
    odometer_km: known?.base ?? null,
    ...(known ? { as_typed: { odometer_km: known.as_typed } } : {}),
    lines: read.lines.map((line) => ({ ...line, measured: !form.about })),
    missed_before: form.missed,
    surface,
    towing: form.towing,
    ...(price ? { price } : {}),
  };
  return { body, errors, doubts: doubtsOf(book, past ? null : (known?.base ?? null), read.lines) };
}

/** What is said of the way since the last entry without a fill; null where nothing is, or litres are typed. */
export function readSince(
  form: FillForm,
  begun: FillForm,
  last: number | null,
  happened: { readonly at: string; readonly zone: string },
): Row["body"] | null {
  const odometer = readTyped(form.odometer, ODOMETER);
  const surface = readSurface(form);
  const typed = Object.values(form.lines).some(({ text }) => text.trim() !== "");
  const onward = odometer.kind === "ok" && odometer.base >= (last ?? 0);
  const said = onward || form.surface !== begun.surface || form.towing !== begun.towing;
  if (typed || !said || !surface || (!onward && odometer.kind !== "blank")) return null;
  const known = odometer.kind === "ok" ? odometer : null;
  return {
    ...{ ...happened, what: "surface", rate_u: 0, surface, towing: form.towing },
    ...(known ? { odometer_km: known.base, as_typed: { odometer_km: known.as_typed } } : {}),
  };
}

const ODOMETER: Wanted = { dimension: "distance", low: 0, high: 5_000_000, name: words.odometer };
const MOST_L = 5_000;

interface Line {
  readonly tank_id: string;
  readonly litres_l: number;
  readonly full: boolean;
  readonly as_typed: Readonly<Record<string, readonly [string, string]>>;
}

function some(of: object): boolean {
  return Object.keys(of).length > 0;
}

function readLines(book: Book, form: FillForm) {
  const lines: Line[] = [];
  const errors: Record<string, string> = {};
  const ask: Record<string, readonly Choice[]> = {};
  const full: Record<string, string> = {};
  for (const tank of fuelTanks(book)) {
    const value = form.lines[tank.id];
    if (!value || value.text.trim() === "") continue;
    if (form.full[tank.id] === undefined) full[tank.id] = words.needFull;
    const read = readTyped(value, { dimension: "volume", low: 0, high: MOST_L, name: tank.body.name });
    if (read.kind === "ok")
      lines.push({
        ...{ tank_id: tank.id, litres_l: read.base, as_typed: { litres_l: read.as_typed } },
        full: form.full[tank.id] === true,
      });
    else if (read.kind === "wrong") errors[tank.id] = read.message;
    else if (read.kind === "ask") ask[tank.id] = read.choices;
  }
  const first = fuelTanks(book)[0];
  if (lines.length === 0 && !some({ ...errors, ...ask }) && first) errors[first.id] = words.needLitres;
  return { lines, errors, ask, full };
}

/** Litres that can be read, by tank. */
export function litresOf(book: Book, form: FillForm): Record<string, number> {
  return Object.fromEntries(readLines(book, form).lines.map((line) => [line.tank_id, line.litres_l]));
}

/** Which surface a way was on, by its shares. */
export function surfaceIn(shares: Row["body"] | null | undefined): Surface {
  return SURFACES.find((name) => shares?.[name] === 1) ?? (shares ? "mixed" : "sealed");
}

/** The shares of a way on one surface. */
export function whollyOn(surface: string): Readonly<Record<string, number>> {
  return { sealed: 0, gravel: 0, sand: 0, [surface]: 1 };
}

/** Shares of the three surfaces; null where the typed shares cannot be read. */
function readSurface(form: FillForm): Row["body"] | null {
  if (form.surface !== "mixed") return whollyOn(form.surface);
  const kms = SURFACES.map((name) => readTyped({ text: form.shares[name], unit: "km" }, SHARE));
  if (kms.some((one) => one.kind === "wrong" || one.kind === "ask")) return null;
  const values = kms.map((one) => (one.kind === "ok" ? one.base : 0));
  const total = values.reduce((sum, value) => sum + value, 0);
  if (total <= 0) return null;
  return Object.fromEntries(SURFACES.map((name, i) => [name, values[i]! / total]));
}

const SHARE: Wanted = { dimension: "distance", low: 0, high: 20_000, name: words.surface };

/** Money as typed, as a decimal string with its currency; null where nothing was typed. */
function readPrice({ price, currency }: FillForm): { amount: string; currency: string } | null | "wrong" {
  const read = parseNumber(price);
  if (read.kind === "blank") return null;
  const code = currency.trim().toUpperCase();
  if (read.kind !== "number" || read.rest !== "" || !/^[A-Z]{3}$/.test(code)) return "wrong";
  return /^[0-9]{1,9}(\.[0-9]{1,4})?$/.test(read.digits) ? { amount: read.digits, currency: code } : "wrong";
}

function doubtsOf(book: Book, odometer_km: number | null, lines: readonly Line[]): Doubt[] {
  const last = lastOdometer(book);
  const doubts: Doubt[] = [];
  if (odometer_km !== null && last !== null && odometer_km < last)
    doubts.push({ words: words.backwards(last) });
  if (odometer_km !== null && last !== null && odometer_km > last + 3_000)
    doubts.push({ words: words.far(odometer_km - last) });
  for (const { tank_id, litres_l, as_typed } of lines) {
    const { name, capacity_l } = book.tanks.find((one) => one.id === tank_id)?.body ?? {};
    if (!capacity_l || litres_l <= capacity_l) continue;
    const [digits, unit] = as_typed.litres_l!;
    const tenth = String(Number(digits) / 10);
    const meant = litres_l / 10 <= capacity_l ? { text: tenth, label: `${tenth} ${unit}` } : null;
    const said = litres_l > 1.1 * capacity_l ? words.over : words.above;
    doubts.push({ words: said(litres_l, name, capacity_l), tank_id, ...(meant ? { meant } : {}) });
  }
  return doubts;
}

export function fuelTanks(book: Book): readonly Row[] {
  return book.tanks.filter((tank) => tank.body.holds === "fuel");
}
