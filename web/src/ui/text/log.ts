/** Entries of the log in words. */
import type { Book, Row } from "@/services/answers";
import { figure, kg, litres } from "./figures";
import { words as fuel } from "./fuel";
import { placeWords } from "./reports";

export const words = {
  title: "Log",
  empty: "No entries yet.",
  lists: "Lists in and out",
  earlier: (count: number) => `Show earlier ones (${count} more)`,
  waiting: "waiting",
  struck: "corrected",
  open: "Open this weighing",
  correct: "Correct it",
  move: "It belongs to another vehicle",
  moveTo: "To which vehicle?",
  tankThere: (tank: string) => `Which tank is ${tank} there?`,
  noTankThere: "That vehicle has no such tank yet: add it to its plan first.",
  moveNow: (name: string) => `Move it to ${name}`,
  surface: "Surface of the way before it",
  keepSurface: (surface: string) => `It was ${surface.toLowerCase()}: keep that`,
  reason: "Why is it wrong?",
  needReason: "Say why: the entry and the reason both stay visible.",
  strike: "Strike it out",
};

const DONE: Readonly<Record<string, string>> = {
  fill: "Water in",
  draw: "Water drawn",
  dump: "Water dumped",
};

/** One line for an entry: what it was and its main figure. */
export function describe(row: Row, book: Book): string {
  const { body } = row;
  if (row.kind === "fill") return `Fuel ${litres(total(body), 1)}${odometer(body)}${fullness(body)}`;
  if (row.kind === "weighing") return `Weighed ${kg(heaviest(body))}`;
  if (row.kind === "water") return `${DONE[body.action] ?? "Water"} ${litres(body.litres_l)}`;
  if (row.kind === "dip") return `${nameOf(book.tanks, body.tank_id)} read ${level(body)}`;
  if (row.kind === "transfer") return `Moved ${body.everything ? "all" : litres(body.litres_l ?? 0)}`;
  if (row.kind === "aboard") return aboard(body, book);
  if (row.kind === "event" && body.what === "supply") return placeWords(body);
  if (row.kind === "event" && body.what === "surface")
    return `${surfaceWords(body.surface)} since the entry before${odometer(body)}`;
  if (row.kind === "event") return `${CHANGED[body.what] ?? CHANGED.other}${odometer(body)}`;
  if (row.kind === "correction" && body.what !== "struck_out") return SAID[body.what] ?? body.what;
  if (row.kind === "correction") return `Corrected: ${body.reason ?? body.what}`;
  return row.kind;
}

const CHANGED: Readonly<Record<string, string>> = {
  tyres: "Tyres changed",
  roof_load: "Load on the roof changed",
  other: "Something changed",
  heat: "Hotter: water is used otherwise",
  company: "Somebody more: water is used otherwise",
  washing: "Showers, washing: water is used otherwise",
};
const SAID: Readonly<Record<string, string>> = {
  kept: "Found right",
  same_as: "The same as another entry",
  other_vehicle: "Belongs to another vehicle",
};

/** "Sand", or "Gravel 60 %, sand 40 %". */
export function surfaceWords(surface: Row["body"]): string {
  const parts = Object.entries(surface as Record<string, number>).filter(([, share]) => share > 0);
  const [first] = parts;
  if (first && parts.length === 1) return fuel.surfaces[first[0]] ?? first[0];
  return parts
    .map(([name, share]) => `${fuel.surfaces[name] ?? name} ${Math.round(100 * share)} %`)
    .join(", ");
}

function fullness({ lines }: Row["body"]): string {
  const full = lines.filter((line: Row["body"]) => line.full).length;
  return full === lines.length ? ", full" : full === 0 ? ", part" : ", part full";
}

function total(body: Row["body"]): number {
  return body.lines.reduce((sum: number, line: Row["body"]) => sum + line.litres_l, 0);
}

function heaviest(body: Row["body"]): number {
  return Math.max(...body.readings.map((one: Row["body"]) => one.value_kg));
}

function odometer(body: Row["body"]): string {
  return body.odometer_km == null ? "" : ` at ${figure(body.odometer_km)} km`;
}

function level(body: Row["body"]): string {
  return body.litres_l == null ? `${Math.round((body.level ?? 0) * 100)} %` : litres(body.litres_l);
}

function aboard(body: Row["body"], book: Book): string {
  if (body.subject === "trailer")
    return `${nameOf(book.trailers, body.subject_id)} ${body.aboard ? "coupled" : "uncoupled"}`;
  const name = nameOf(body.subject === "person" ? book.people : book.items, body.subject_id);
  return `${name} ${body.aboard ? "aboard" : "not aboard"}`;
}

function nameOf(rows: readonly Row[], id: string): string {
  return rows.find((row) => row.id === id)?.body.name ?? "something since removed";
}
