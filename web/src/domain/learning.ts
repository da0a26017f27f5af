/** What all weighings of a book teach about its plan: each is read by itself first, then all are put together. */
import { type Geometry, rowsOf } from "./axles";
import type { Book, Row } from "./book";
import { revisionsOf } from "./day";
import { baseCorrelationOf, geometryOf, lastingOf, type Plan, planIn, plannedLoads, reckoned } from "./plan";
import type { Reconciled } from "./posterior";
import { reconcile, type Session } from "./reconcile";
import { type Loads, type Part, uKg, valueKg } from "./statics";
import { readVisit, type Visit } from "./visit";

/** One row planned and weighed, in the state of the day; u are standard uncertainties. */
export interface Gap {
  readonly row: string;
  readonly planned_kg: number;
  readonly planned_u_kg: number;
  readonly weighed_kg: number;
  readonly weighed_u_kg: number;
  readonly gap_kg: number;
  readonly gap_u_kg: number;
}

/** One weighing read: the visit, the plan in the state of that day where it reaches it, and the differences. */
export interface WeighedDay {
  readonly visit: Visit;
  readonly plan: Plan | null;
  readonly geometry: Geometry | null;
  readonly expected: Loads | null;
  readonly gaps: readonly Gap[];
  readonly session: Session | null;
}

/** Whether its readings agree and the plan reaches it. */
export function teaches({ visit, session }: WeighedDay): boolean {
  return session !== null && visit.agree && session.readings.length > 0;
}

/** The reconciled plan, with the parts that stand for what is not on the list. */
export interface Learning {
  readonly posterior: Reconciled;
  readonly unlisted: readonly Part[];
}

/** Loads of a plan in its state, or in that of a weighing; what is not on the list stays aboard. */
export function loadsOf(
  { posterior, unlisted }: Learning,
  plan: Plan,
  rows: readonly string[],
  geometry: Geometry,
  session: string | null = null,
): Loads {
  const lasting = [...plan.lasting, ...unlisted.filter((part) => isOn(part, geometry.trailer?.id ?? null))];
  return posterior.loads({ lasting, passing: plan.passing, rows, geometry, session });
}

/** One weighing read by itself, with the plan of its day in its own state. */
export function weighedDay({ book, weighing }: { readonly book: Book; readonly weighing: Row }): WeighedDay {
  const visit = readVisit({ book, weighing });
  const { state } = visit;
  if (!reckoned({ book, state }))
    return { visit, plan: null, geometry: null, expected: null, gaps: [], session: null };
  const plan = planIn({ book, state, revisions: revisionsOf({ weighing }) });
  const expected = plannedLoads({ book, plan, state });
  const geometry = geometryOf({ book, state });
  const session = sessionOf(visit, plan, geometry);
  return { visit, plan, geometry, expected, gaps: gapsOf({ visit, expected }), session };
}

export interface WeighedDays {
  readonly book: Book;
  readonly known?: readonly WeighedDay[];
}

/** All weighings of a book read by themselves; those that are `known` from this very book are taken over. */
export function weighedDays({ book, known = [] }: WeighedDays): WeighedDay[] {
  const kept = new Map(known.map((day) => [day.visit.id, day]));
  return book.weighings.map((weighing) => kept.get(weighing.id) ?? weighedDay({ book, weighing }));
}

export interface Learn {
  readonly book: Book;
  readonly days: readonly WeighedDay[];
}

/** The present plan updated with every weighing that teaches. */
export function learn({ book, days }: Learn): Learning {
  const taught = days.filter(teaches);
  const geometry = geometryOf({ book });
  const unlisted = unlistedIn(taught, geometry);
  const posterior = reconcile({
    lasting: lastingOf({ book }),
    geometry,
    sessions: taught.flatMap((day) => day.session ?? []),
    unlisted,
    base_correlation: baseCorrelationOf({ book }),
  });
  return { posterior, unlisted };
}

/** Every measured row that the plan knows, planned and weighed. */
export function gapsOf({ visit, expected }: { readonly visit: Visit; readonly expected: Loads }): Gap[] {
  return visit.measured
    .filter(({ row }) => expected.rows.includes(row))
    .map(({ row, value_kg, u_kg }) => {
      const [planned_kg, planned_u_kg] = [valueKg(expected, row), uKg(expected, row)];
      return {
        row,
        planned_kg,
        planned_u_kg,
        weighed_kg: value_kg,
        weighed_u_kg: u_kg,
        gap_kg: value_kg - planned_kg,
        gap_u_kg: Math.sqrt(planned_u_kg ** 2 + u_kg ** 2),
      };
    });
}

/** The weighing as the plan is held against it: readings of rows and people that the plan knows. */
function sessionOf(visit: Visit, plan: Plan, geometry: Geometry): Session {
  const rows = new Set(rowsOf(geometry));
  const known = new Set(plan.passing.map((part) => part.id));
  const readings = visit.readings.filter(
    (one) => one.axles.every((axle) => rows.has(axle)) && (one.without ?? []).every((id) => known.has(id)),
  );
  const { id, bridge, setup } = visit;
  return { id, lasting: plan.lasting, passing: plan.passing, readings, bridge, setup, geometry };
}

function isOn(part: Part, trailer_id: string | null): boolean {
  return (part.on ?? "vehicle") === "vehicle" || part.on === trailer_id;
}

/** What is not on the list: mean 0, with the variance that the gaps have beyond their own (method of moments). */
function unlistedIn(taught: readonly WeighedDay[], geometry: Geometry): Part[] {
  const gaps = (days: readonly WeighedDay[]) => days.flatMap((day) => [...day.gaps]);
  const solo = gaps(taught.filter((day) => day.visit.trailer_id === null));
  const own = solo.length > 0 ? solo : gaps(taught);
  const length = geometry.wheelbase_m;
  const axles = { front: [0, 0], rear: [length, 0] } as const;
  const places: Readonly<Record<string, readonly [number, number]>> = own.some((gap) => gap.row in axles)
    ? axles
    : { gross: [0.75 * length, 0.35 * length] };
  const out = Object.entries(places).map(([row, [x_m, x_u_m]]) =>
    excess(`unlisted_${row}`, row, own, { x_m, x_u_m, on: "vehicle" }),
  );
  const levers = new Map(taught.flatMap((day) => day.geometry?.trailer ?? []).map((one) => [one.id, one]));
  for (const { id, coupling_to_axle_m } of levers.values()) {
    const weighed = gaps(taught.filter((day) => day.visit.trailer_id === id));
    const towed = [...weighed, ...onCoupling(weighed, solo)];
    for (const [row, x_m] of [
      ["coupling", 0],
      ["trailer_axles", coupling_to_axle_m],
    ] as const)
      out.push(excess(`unlisted_${row}:${id}`, row, towed, { x_m, x_u_m: 0, on: id }));
  }
  return out.filter((part) => part !== null);
}

/** Differences of the coupling load from gross alone: those with the trailer less the mean of those without. */
function onCoupling(towed: readonly Gap[], solo: readonly Gap[]): Gap[] {
  const alone = solo.filter((gap) => gap.row === "gross");
  if (alone.length === 0 || towed.some((gap) => gap.row === "coupling")) return [];
  const mean = alone.reduce((sum, gap) => sum + gap.gap_kg, 0) / alone.length;
  const mean_u2 = alone.reduce((sum, gap) => sum + gap.gap_u_kg ** 2, 0) / alone.length ** 2;
  return towed
    .filter((gap) => gap.row === "gross")
    .map((gap) => ({
      ...gap,
      row: "coupling",
      gap_kg: gap.gap_kg - mean,
      gap_u_kg: Math.sqrt(gap.gap_u_kg ** 2 + mean_u2),
    }));
}

function excess(
  id: string,
  row: string,
  gaps: readonly Gap[],
  place: Pick<Part, "x_m" | "x_u_m" | "on">,
): Part | null {
  const found = gaps.filter((gap) => gap.row === row).map((gap) => gap.gap_kg ** 2 - gap.gap_u_kg ** 2);
  const total = found.reduce((sum, value) => sum + value, 0);
  if (!(total > 0)) return null;
  return { id, mass_kg: 0, mass_u_kg: Math.sqrt(total / found.length), ...place };
}
