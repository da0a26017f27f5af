/** Consumption as it was, with everything that is known now: for display only, no answer rests on it. */
import { bankAdvance, bankPrior } from "./bank";
import { type DomainEvent, isObservation } from "./events";
import type { WholeLog } from "./fuel_log";
import { type Journal, planWay } from "./journal";
import { smoothBank } from "./smooth";

/** A class's rate at the end of a way driven in it, L per 100 true km with u; `at_km`: true km since the log began. */
export interface RateThen {
  readonly entry_id: string;
  readonly at_km: number;
  readonly class_id: string;
  readonly l_per_100km: number;
  readonly u: number;
}

/** What the main branch of a log went through, step by step: ways as `use`, tanks forgotten, entries that counted. */
export function eventsRun({ journal }: { readonly journal: Journal }): DomainEvent[][] {
  let bank = bankPrior({ model: journal.model, kappas: journal.kappas });
  let unknown: readonly string[] = [];
  return journal.steps.map((step, n) => {
    const done: DomainEvent[] = [];
    const take = (event: DomainEvent) => {
      bank = bankAdvance({ bank, event });
      done.push(event);
    };
    planWay({ bank, way: step.way ?? [] }).forEach(take);
    const leftOut = step.refused || journal.outcomes[n]!.held !== null;
    if (leftOut) unknown = [...new Set([...unknown, ...(step.tank_ids ?? [])])];
    for (const event of leftOut ? [] : (step.events ?? [])) {
      const open = unknown;
      const forgotten = readIn(event).filter((tank_id) => open.includes(tank_id));
      unknown = open.filter((tank_id) => !forgotten.includes(tank_id));
      for (const tank_id of forgotten) take({ kind: "missed", tank_id });
      take(event);
    }
    return done;
  });
}

/** The smoothed rate of each class after each way driven in it, in order; held and refused entries say nothing. */
export function ratesOverTime({ log }: { readonly log: WholeLog }): RateThen[] {
  const { model, journal, setup } = log;
  const runs = eventsRun({ journal });
  const events = runs.flat();
  if (events.length === 0) return [];
  const states = smoothBank({ model, kappas: journal.kappas, events });
  const relative = setup.factor_u / setup.factor;
  let k = setup.factor / ratioOf(events);
  let [n, at_km] = [0, 0];
  return journal.steps.flatMap(({ entry_id, way = [] }, i) => {
    at_km += k * way.reduce((sum, part) => sum + part.amount, 0);
    n += runs[i]!.length;
    k *= ratioOf(runs[i]!);
    return way.map(({ class_id }) => {
      const found = states[n - 1]![model.tank_ids.length + model.class_ids.indexOf(class_id)]!;
      const rate = found.mean / k;
      const u = Math.sqrt((found.u / k) ** 2 + (rate * relative) ** 2);
      return { entry_id, at_km, class_id, l_per_100km: rate, u };
    });
  });
}

function readIn(event: DomainEvent): readonly string[] {
  if (!isObservation(event)) return [];
  return event.kind === "full" ? event.tank_ids : [event.tank_id];
}

function ratioOf(events: readonly DomainEvent[]): number {
  return events.reduce((product, event) => (event.kind === "rescale" ? product * event.ratio : product), 1);
}
