/** What each weighing taught: the full state before and after it, and the items that it spoke of. */
import { ROWS } from "./axles";
import type { Book } from "./book";
import { type Learning, learn, loadsOf, weighedDays } from "./learning";
import { geometryOf, type Plan, planIn, planned } from "./plan";
import { fullState } from "./state";
import { type Loads, loads, uKg, valueKg } from "./statics";
import { measuredOf } from "./visit";
import { type PlannedDay, plannedDay } from "./weighed";

export const SPEAKS = 0.1; // share of the variance removed, under which a weighing says nothing about an item (assumed)

/** One row at one weighing: planned and weighed in the state of its day; the full state before and after. */
export interface TaughtRow {
  readonly row: string;
  readonly planned_kg: number;
  readonly planned_u_kg: number;
  readonly weighed_kg: number | null;
  readonly weighed_u_kg: number | null;
  readonly before_kg: number;
  readonly before_u_kg: number;
  readonly after_kg: number;
  readonly after_u_kg: number;
}

/** An item of which this weighing removed more than a tenth of the variance; `told` is that share. */
export interface TaughtItem {
  readonly id: string;
  readonly told: number;
  readonly before_kg: number;
  readonly before_u_kg: number;
  readonly after_kg: number;
  readonly after_u_kg: number;
}

/** What one weighing taught; one that does not count taught nothing. */
export interface Taught {
  readonly weighing_id: string;
  readonly at: string;
  readonly counted: boolean;
  readonly rows: readonly TaughtRow[];
  readonly items: readonly TaughtItem[];
  /** The mass that the weighings so far ask for and no record names. */
  readonly unexplained_kg: number;
  readonly unexplained_u_kg: number;
}

/** What each weighing taught, in order of time; nothing without a plan. */
export function taught({ book }: { readonly book: Book }): Taught[] {
  if (!planned({ book }) || book.weighings.length === 0) return [];
  const learning = learn({ book, days: weighedDays({ book }) });
  const geometry = geometryOf({ book, state: fullState({ book }) });
  const full = planIn({ book, state: fullState({ book }) });
  const upto = (count: number): Known => {
    const part = { ...learning, posterior: learning.posterior.upto({ count }) };
    return { learning: part, full: loadsOf(part, full, ROWS, geometry) };
  };
  let [known, count] = [upto(0), 0];
  return book.weighings.flatMap((weighing): Taught[] => {
    const day = plannedDay({ book, weighing_id: weighing.id });
    if (!day) return [];
    const own = learning.posterior.reading_ids.filter((one) => one.startsWith(`${weighing.id}:`)).length;
    const before = known;
    count += own;
    if (own > 0) known = upto(count);
    const [unexplained_kg, unexplained_u_kg] = unexplainedOf(known.learning);
    const counted = own > 0;
    return [
      {
        weighing_id: weighing.id,
        at: day.visit.at,
        counted,
        rows: rowsOf(day, before.full, known.full),
        items: counted ? itemsOf(full, before, known) : [],
        unexplained_kg,
        unexplained_u_kg,
      },
    ];
  });
}

/** What is known after some readings, and the full state by it. */
interface Known {
  readonly learning: Learning;
  readonly full: Loads;
}

function rowsOf(
  { plan, geometry, base_correlation, visit }: PlannedDay,
  was: Loads,
  now: Loads,
): TaughtRow[] {
  const parts = [...plan.lasting, ...plan.passing];
  const planned = loads({ parts, geometry, rows: ROWS, base_correlation });
  return ROWS.map((row) => {
    const found = measuredOf(visit, row);
    return {
      row,
      planned_kg: valueKg(planned, row),
      planned_u_kg: uKg(planned, row),
      weighed_kg: found?.value_kg ?? null,
      weighed_u_kg: found?.u_kg ?? null,
      before_kg: valueKg(was, row),
      before_u_kg: uKg(was, row),
      after_kg: valueKg(now, row),
      after_u_kg: uKg(now, row),
    };
  });
}

function itemsOf(full: Plan, before: Known, after: Known): TaughtItem[] {
  return full.lasting.flatMap((part) => {
    if (part.taken_off) return [];
    const [was, now] = [before.learning.posterior.learnt(part.id), after.learning.posterior.learnt(part.id)];
    const told = was.now_u_kg > 0 ? 1 - (now.now_u_kg / was.now_u_kg) ** 2 : 0;
    if (!(told > SPEAKS)) return [];
    const figures = { before_kg: was.now_kg, before_u_kg: was.now_u_kg, after_kg: now.now_kg };
    return [{ id: part.id, told, ...figures, after_u_kg: now.now_u_kg }];
  });
}

function unexplainedOf({ posterior, unlisted }: Learning): [number, number] {
  const own = unlisted.filter(({ on = "vehicle" }) => on === "vehicle");
  if (own.length === 0) return [0, 0];
  const row = own
    .map((part) => posterior.unit(part.id))
    .reduce((sum, unit) => sum.map((value, i) => value + unit[i]!));
  const { mean, cov } = posterior.rows([row]);
  return [mean[0]!, Math.sqrt(Math.max(cov[0]![0]!, 0))];
}
