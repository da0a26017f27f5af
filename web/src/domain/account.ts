/** Where the kilograms are: one column whose lines add up to the weighed mass. */
import type { Book } from "./book";
import { checkFinite } from "./errors";
import { FORGOTTEN } from "./forgotten";
import { type Change, firstDay, history, howOf, massOf } from "./history";
import { planIn } from "./plan";
import { loads, type Part, uKg, valueKg } from "./statics";
import { type Measured, measuredOf, type Visit } from "./visit";
import { type PlannedDay, plannedDay } from "./weighed";

export const WHOLE = ["gross", "combination"] as const; // what a column can add up to, the first that was weighed

/** One line; `code` says what, `record_ids` and `author` whose. `u_kg` is one standard uncertainty. */
export interface Line {
  readonly code: string;
  readonly mass_kg: number;
  readonly u_kg: number;
  readonly record_ids: readonly string[];
  readonly author: string | null;
}

/** The column of one weighing, with the plan as it stood at the end of `day`. */
export interface Account {
  readonly weighing_id: string;
  readonly row: string;
  readonly day: string;
  readonly lines: readonly Line[];
  readonly weighed_kg: number;
  readonly weighed_u_kg: number;
}

export interface AccountOf {
  readonly book: Book;
  readonly weighing_id: string;
  readonly day?: string | null;
}

/** From the plan on a day to the mass on the bridge, in lines that add up to it; null where nothing can. */
export function account({ book, weighing_id, day = null }: AccountOf): Account | null {
  const weighed = plannedDay({ book, weighing_id });
  const measured = weighed && wholeOf(weighed.visit);
  if (!weighed || !measured) return null;
  const { row, value_kg, u_kg } = measured;
  const since = day || firstDay({ book, until: weighed.visit.at });
  const lines = [...lasting(book, weighed, since), ...passing(book, weighed), ...trailer(weighed, row)];
  const rest_kg = lines.reduce((left, line) => left - line.mass_kg, value_kg);
  const { plan, geometry, base_correlation } = weighed;
  const parts = [...plan.lasting, ...plan.passing];
  const planned_u = uKg(loads({ parts, geometry, rows: [row], base_correlation }), row);
  lines.push(lineOf("unplanned", rest_kg, Math.sqrt(planned_u ** 2 + u_kg ** 2)), lineOf("bridge", 0, u_kg));
  return { weighing_id, row, day: since, lines, weighed_kg: value_kg, weighed_u_kg: u_kg };
}

/** Whole kilograms that add up exactly to the rounded total, each less than 1 kg from its mass: largest remainder. */
export function wholeKg({ masses_kg }: { readonly masses_kg: readonly number[] }): number[] {
  const total = masses_kg.reduce((sum, mass_kg) => sum + checkFinite("mass_kg", mass_kg), 0);
  const low = masses_kg.map(Math.floor);
  const lacking = Math.floor(total + 0.5) - low.reduce((sum, value) => sum + value, 0);
  const order = low.map((_, i) => i).sort((a, b) => low[a]! - masses_kg[a]! - (low[b]! - masses_kg[b]!));
  for (const i of order.slice(0, Math.max(lacking, 0))) low[i] = low[i]! + 1;
  return low;
}

function wholeOf(visit: Visit): Measured | null {
  if (!visit.agree) return null;
  return measuredOf(visit, WHOLE[0]) ?? measuredOf(visit, WHOLE[1]);
}

function lineOf(
  code: string,
  mass_kg: number,
  u_kg: number,
  record_ids: readonly string[] = [],
  author: string | null = null,
): Line {
  return { code, mass_kg, u_kg, record_ids, author };
}

/** Of a sum of masses, wherever they are. */
function spread({ geometry, base_correlation }: PlannedDay, parts: readonly Part[]): number {
  return uKg(loads({ parts, geometry, rows: ["gross"], base_correlation }), "gross");
}

/** The plan of the day, what was entered since, and what stayed behind. */
function lasting(book: Book, weighed: PlannedDay, day: string): Line[] {
  const past = history({ book, weighed, day });
  const lines = [lineOf("plan", massOf({ parts: past.parts }), spread(weighed, past.parts))];
  for (const author of new Set(past.base.map((one) => one.author)))
    lines.push(
      entered(
        weighed,
        "base",
        past.base.filter((one) => one.author === author),
      ),
    );
  for (const author of new Set(past.items.map((one) => one.author)))
    for (const how of ["new", "changed", "removed"]) {
      const of = past.items.filter((one) => one.author === author && howOf(one) === how);
      if (of.length > 0) lines.push(entered(weighed, how, of));
    }
  const state = { ...weighed.state, items_away: [] };
  const there = new Set(weighed.plan.lasting.map((part) => part.id));
  const everything = planIn({ book, state, revisions: weighed.revisions }).lasting;
  const left = everything.filter((part) => !there.has(part.id) && onVehicle(part));
  if (left.length > 0)
    lines.push(lineOf("left", -massOf({ parts: left }), spread(weighed, left), left.map(idOf)));
  const forgotten = weighed.plan.lasting.filter((part) => part.id === FORGOTTEN);
  if (forgotten.length > 0)
    lines.push(lineOf("forgotten", massOf({ parts: forgotten }), spread(weighed, forgotten)));
  return lines;
}

function entered(weighed: PlannedDay, code: string, changes: readonly Change[]): Line {
  const mass_kg = changes.reduce((sum, one) => sum + one.mass_kg, 0);
  const parts = changes.flatMap(({ before, after }) => (after.length > 0 ? after : before));
  const ids = changes.map((one) => one.record_id);
  return lineOf(code, mass_kg, spread(weighed, parts), ids, changes[0]!.author);
}

/** The day's people, then one line per tank with its content, its remainder and a can's own mass. */
function passing(book: Book, weighed: PlannedDay): Line[] {
  const parts = weighed.plan.passing.filter(onVehicle);
  const lines: Line[] = [];
  const people = parts.filter((part) => part.id.endsWith(":occupant"));
  const who = new Map(
    weighed.state.seats.map((one) => [`${one.seat_id}:occupant`, one.person_id ?? one.seat_id]),
  );
  if (people.length > 0) {
    const ids = people.map((part) => who.get(part.id)!);
    lines.push(lineOf("people", massOf({ parts: people }), spread(weighed, people), ids));
  }
  const tanks = new Map<string, Part[]>();
  for (const part of parts) {
    if (part.id.endsWith(":occupant")) continue;
    const id = part.id.slice(0, part.id.lastIndexOf(":"));
    tanks.set(id, [...(tanks.get(id) ?? []), part]);
  }
  const rows = [...book.tanks, ...book.gone.filter((row) => row.kind === "tank")];
  for (const [id, of] of tanks) {
    const holds: string = rows.find((row) => row.id === id)!.body.holds;
    lines.push(lineOf(holds, massOf({ parts: of }), spread(weighed, of), [id]));
  }
  return lines;
}

function trailer({ plan, geometry }: PlannedDay, row: string): Line[] {
  const parts = [...plan.lasting, ...plan.passing].filter((part) => !onVehicle(part));
  if (parts.length === 0) return [];
  const found = loads({ parts, geometry, rows: [row] });
  const ids = [...new Set(parts.map((part) => part.on!))];
  return [lineOf(row === "gross" ? "coupling" : "trailer", valueKg(found, row), uKg(found, row), ids)];
}

function onVehicle({ on = "vehicle" }: Part): boolean {
  return on === "vehicle";
}

function idOf(part: Part): string {
  return part.id;
}
