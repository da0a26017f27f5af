/** One thing of a plan put elsewhere: its own parts are weighed anew and nothing else, quick enough for each frame. */
import type { Geometry } from "./axles";
import type { Book } from "./book";
import { checkFinite, DomainError, Unknown } from "./errors";
import { FORGOTTEN, forgottenAfter } from "./forgotten";
import { mainTank, type Plan } from "./plan";
import { type Loads, loads, type Part } from "./statics";

const BASES = ["base_front", "base_rear"];
const FIXED = [...BASES, FORGOTTEN];
const STANDING = ["content", "unusable", "empty", "occupant"]; // parts of one record, after its id

/** Parts as they were and as they are; `mates` are the copies of their articles that stay. */
export interface Move {
  readonly before: readonly Part[];
  readonly after: readonly Part[];
  readonly mates?: readonly Part[];
}

export interface MoveTo {
  readonly book: Book;
  readonly plan: Plan;
  readonly record_id: string;
  readonly x_m: number;
}

/** An item, a tank or a seat of the plan put at x, with everything that stands where it stands; refused if not there. */
export function moveTo({ book, plan, record_id, x_m }: MoveTo): Move {
  checkFinite("x_m", x_m);
  const ids = new Set([record_id, ...STANDING.map((what) => `${record_id}:${what}`)]);
  for (const id of FIXED) ids.delete(id);
  if (mainTank({ book })?.id === record_id) ids.add("base_fuel");
  if (book.seats[0]?.id === record_id) ids.add("base_driver");
  const parts = [...plan.lasting, ...plan.passing];
  const before = parts.filter((part) => ids.has(part.id));
  if (before.length === 0) {
    const known = parts.flatMap(({ id }) => (FIXED.includes(id) ? [] : [id]));
    throw new Unknown("record_id", record_id, known);
  }
  const articles = new Set(before.map((part) => part.article ?? null));
  articles.delete(null);
  const mates = parts.filter((part) => articles.has(part.article ?? null) && !ids.has(part.id));
  const after = before.map((part) => ({ ...part, x_m }));
  const forgotten = parts.find((part) => part.id === FORGOTTEN);
  if (!forgotten || !before.some((part) => part.id === record_id)) return { before, after, mates };
  const share: number = book.vehicle?.body.forgotten_share ?? 0;
  const follows = forgottenAfter({ part: forgotten, share, before, after });
  return { before: [...before, forgotten], after: [...after, follows], mates };
}

export interface MovedPlan {
  readonly plan: Plan;
  readonly move: Move;
}

/** The plan with the moved parts in their places. */
export function movedPlan({ plan, move }: MovedPlan): Plan {
  const after = new Map(move.after.map((part) => [part.id, part]));
  const placed = (parts: readonly Part[]) => parts.map((part) => after.get(part.id) ?? part);
  return { ...plan, lasting: placed(plan.lasting), passing: placed(plan.passing) };
}

export interface ShiftedLoads {
  readonly found: Loads;
  readonly move: Move;
  readonly geometry: Geometry;
}

/** Means and covariance after a move from those before it: independent parts add up, copies of one article go together. */
export function shiftedLoads({ found, move, geometry }: ShiftedLoads): Loads {
  const { before, after, mates = [] } = move;
  const base = [...before, ...after].find((part) => BASES.includes(part.id));
  if (base) throw new DomainError("id", base.id, "an item, a tank or a seat", "Move one of these");
  const { rows } = found;
  const was = loads({ parts: [...before, ...mates], geometry, rows });
  const now = loads({ parts: [...after, ...mates], geometry, rows });
  const changed = (k: number, m: number) =>
    found.cov_kg2[k]![m]! + (now.cov_kg2[k]![m]! - was.cov_kg2[k]![m]!);
  return {
    rows,
    mean_kg: found.mean_kg.map((mean_kg, k) => mean_kg + (now.mean_kg[k]! - was.mean_kg[k]!)),
    cov_kg2: rows.map((_, k) => rows.map((_, m) => (k === m ? Math.max(changed(k, k), 0) : changed(k, m)))),
  };
}
