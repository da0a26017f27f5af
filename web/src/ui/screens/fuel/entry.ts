/** A fill as it stands in the form, and the record that comes of it. Pure. */
import type { Book, Row } from "@/services/answers";
import { words } from "@/ui/text/fuel";
import { type Choice, readTyped, type TypedNumber, type Wanted } from "@/units/typed";

export type Surface = "sealed" | "gravel" | "sand" | "mixed";

export interface FillForm {
  readonly odometer: TypedNumber;
  readonly lines: Readonly<Record<string, TypedNumber>>;
  readonly full: boolean | null;
  readonly missed: boolean;
  readonly surface: Surface;
  readonly shares: Readonly<Record<"sealed" | "gravel" | "sand", string>>;
}

export interface FillErrors {
  readonly odometer?: string;
  readonly lines?: Readonly<Record<string, string>>;
  readonly ask?: Readonly<Record<string, readonly Choice[]>>;
  readonly full?: string;
  readonly shares?: string;
}

/** An empty form: the surface of the last fill is the guess for this one. */
export function emptyFill(book: Book): FillForm {
  const last = book.fills.at(-1)?.body.surface;
  const only = last ? (["sealed", "gravel", "sand"] as const).find((name) => last[name] === 1) : undefined;
  return {
    odometer: { text: "", unit: "km" },
    lines: {},
    full: null,
    missed: false,
    surface: only ?? "sealed",
    shares: { sealed: "", gravel: "", sand: "" },
  };
}

/** The highest odometer reading in the log, or null. */
export function lastOdometer(book: Book): number | null {
  const all = [...book.fills, ...book.dips, ...book.transfers].map((one) => one.body.odometer_km);
  const known = all.filter((one): one is number => typeof one === "number");
  return known.length > 0 ? Math.max(...known) : null;
}

export interface ReadFill {
  readonly body: Row["body"] | null;
  readonly errors: FillErrors;
  /** Things that are possible but unlikely: asked about, never in the way. */
  readonly doubts: readonly string[];
}

export function readFill(book: Book, form: FillForm, at: string, zone: string): ReadFill {
  const odometer = readTyped(form.odometer, ODOMETER);
  const read = readLines(book, form);
  const surface = readSurface(form);
  const errors: FillErrors = {
    ...(odometer.kind === "wrong" ? { odometer: odometer.message } : {}),
    ...(odometer.kind === "ask" ? { odometer: words.ask(odometer.choices.map((one) => one.label)) } : {}),
    ...(Object.keys(read.errors).length > 0 ? { lines: read.errors } : {}),
    ...(Object.keys(read.ask).length > 0 ? { ask: read.ask } : {}),
    ...(form.full === null ? { full: words.needFull } : {}),
    ...(surface === null ? { shares: words.wrongShares } : {}),
  };
  if (Object.keys(errors).length > 0 || surface === null) return { body: null, errors, doubts: [] };
  const known = odometer.kind === "ok" ? odometer : null;
  const body = {
    at,
    zone,
    odometer_km: known?.base ?? null,
    ...(known ? { as_typed: { odometer_km: known.as_typed } } : {}),
    lines: read.lines.map((line) => ({ ...line, measured: true, full: form.full === true })),
    missed_before: form.missed,
    surface,
  };
  return { body, errors, doubts: doubtsOf(book, known?.base ?? null, read.lines) };
}

const ODOMETER: Wanted = { dimension: "distance", low: 0, high: 5_000_000, name: words.odometer };

interface Line {
  readonly tank_id: string;
  readonly litres_l: number;
  readonly as_typed: Readonly<Record<string, readonly [string, string]>>;
}

function readLines(book: Book, form: FillForm) {
  const lines: Line[] = [];
  const errors: Record<string, string> = {};
  const ask: Record<string, readonly Choice[]> = {};
  for (const tank of fuelTanks(book)) {
    const value = form.lines[tank.id];
    if (!value || value.text.trim() === "") continue;
    const high = Math.round((tank.body.capacity_l ?? 4_545) * 1.1);
    const read = readTyped(value, { dimension: "volume", low: 0, high, name: tank.body.name });
    if (read.kind === "ok")
      lines.push({ tank_id: tank.id, litres_l: read.base, as_typed: { litres_l: read.as_typed } });
    else if (read.kind === "wrong") errors[tank.id] = read.message;
    else if (read.kind === "ask") ask[tank.id] = read.choices;
  }
  const first = fuelTanks(book)[0];
  const nothing = lines.length + Object.keys(errors).length + Object.keys(ask).length === 0;
  if (nothing && first) errors[first.id] = words.needLitres;
  return { lines, errors, ask };
}

/** Shares of the three surfaces; null where the typed shares cannot be read. */
function readSurface(form: FillForm): Row["body"] | null {
  if (form.surface !== "mixed") {
    const none = { sealed: 0, gravel: 0, sand: 0 };
    return { ...none, [form.surface]: 1 };
  }
  const names = ["sealed", "gravel", "sand"] as const;
  const kms = names.map((name) => readTyped({ text: form.shares[name], unit: "km" }, SHARE));
  if (kms.some((one) => one.kind === "wrong" || one.kind === "ask")) return null;
  const values = kms.map((one) => (one.kind === "ok" ? one.base : 0));
  const total = values.reduce((sum, value) => sum + value, 0);
  if (total <= 0) return null;
  return Object.fromEntries(names.map((name, i) => [name, values[i]! / total]));
}

const SHARE: Wanted = { dimension: "distance", low: 0, high: 20_000, name: words.surface };

function doubtsOf(book: Book, odometer_km: number | null, lines: readonly Line[]): string[] {
  const last = lastOdometer(book);
  const doubts: string[] = [];
  if (odometer_km !== null && last !== null && odometer_km < last) doubts.push(words.backwards(last));
  if (odometer_km !== null && last !== null && odometer_km > last + 3_000)
    doubts.push(words.far(odometer_km - last));
  for (const line of lines) {
    const tank = book.tanks.find((one) => one.id === line.tank_id)?.body;
    if (tank?.capacity_l && line.litres_l > tank.capacity_l)
      doubts.push(words.over(tank.name, tank.capacity_l));
  }
  return doubts;
}

export function fuelTanks(book: Book): readonly Row[] {
  return book.tanks.filter((tank) => tank.body.holds === "fuel");
}
