/**
 * A log run through the bank, entry by entry, so that it can be continued and one bad entry hides nothing.
 * What an entry says is held when it does not fit; the lowest answer of the branches without it and with it stands.
 */
import { type Bank, bankAdvance, bankPrior, bankState } from "./bank";
import type { DomainEvent, Use } from "./events";
import type { Innovation, Model } from "./filter";
import { type Notice, noticePrior } from "./notice";
import { BEYOND, HOLD, OVERFULL, planOn, runningOf, standingOf, stepIn } from "./running";
import { stackOf } from "./stack";
import type { TankLevel } from "./state";

export { BEYOND, HOLD, OVERFULL };

/** States kept for continuing: one in so many, and the last two. */
export const EVERY = 16;

/** An amount in one class. */
export interface Part {
  readonly class_id: string;
  readonly amount: number;
}

/** One entry: the way since the step before, then what it says. `refused`: only the way counts. */
export interface Step {
  readonly entry_id: string;
  readonly way?: readonly Part[];
  readonly events?: readonly DomainEvent[];
  readonly tank_ids?: readonly string[];
  readonly refused?: boolean;
  readonly confirmed?: boolean;
  /** Held for this reason. */
  readonly doubt?: Held | null;
}

/** A bank, and the tanks whose level must be forgotten before the next reading. */
export interface Branch {
  readonly bank: Bank;
  readonly unknown: readonly string[];
  /** It takes a missed fill for none, until the levels are read again. */
  readonly passing?: boolean;
}

/** All that the next step needs. `main` leaves out what is in doubt; of `others` the last takes all of it as typed. */
export interface Standing {
  readonly main: Branch;
  readonly others: readonly Branch[];
  readonly notice: Notice;
}

export type Held = "far_off" | "overfull" | "beyond_tank" | "alike";

/** What came of one step; `levels_l` are the mean levels after it. */
export interface Outcome {
  readonly entry_id: string;
  readonly readings: readonly Innovation[];
  readonly held: Held | null;
  readonly alarm: "more" | "less" | null;
  readonly levels_l: readonly number[];
}

/** A log that has been run: steps with their outcomes, the state now, and states to continue from. */
export interface Journal {
  readonly model: Model;
  readonly kappas: readonly number[];
  readonly steps: readonly Step[];
  readonly outcomes: readonly Outcome[];
  readonly state: Standing;
  readonly kept: readonly (readonly [number, Standing])[];
}

export interface RunJournal {
  readonly model: Model;
  readonly kappas: readonly number[];
  readonly steps: readonly Step[];
  readonly previous?: Journal | null;
}

/** Run the steps of a log in their order; with `previous`, only from where it differs. The result is the same. */
export function runJournal({ model, kappas, steps, previous = null }: RunJournal): Journal {
  const same = previous ? sameIn({ model, kappas, steps, previous }) : 0;
  let kept = previous ? previous.kept.filter(([n]) => n <= same) : [];
  const [start, state] = kept.at(-1) ?? [0, firstStanding(model, kappas)];
  const outcomes = previous ? previous.outcomes.slice(0, start) : [];
  const run = runningOf(state);
  for (let n = start; n < steps.length; n++) {
    outcomes.push(stepIn(run, steps[n]!));
    if ((n + 1) % EVERY === 0 || n + 2 >= steps.length) kept.push([n + 1, standingOf(run)]);
  }
  kept = kept.filter(([n], place) => n % EVERY === 0 || place >= kept.length - 2);
  return { model, kappas, steps, outcomes, state: start < steps.length ? standingOf(run) : state, kept };
}

/** At which step a run with `previous` begins. */
export function continuedFrom(given: RunJournal): number {
  const { previous = null } = given;
  const same = previous ? sameIn({ ...given, previous }) : 0;
  return previous?.kept.findLast(([n]) => n <= same)?.[0] ?? 0;
}

/** How many steps need not be run again. */
function sameIn({ model, kappas, steps, previous }: RunJournal & { readonly previous: Journal }): number {
  if (!equal([previous.model, previous.kappas], [model, kappas])) return 0;
  return sameUntil(previous.steps, steps);
}

export interface StepOn {
  readonly state: Standing;
  readonly step: Step;
}

/** One step further: the way, then the entry, which is used, held or left out. */
export function stepOn({ state, step }: StepOn): [Standing, Outcome] {
  const run = runningOf(state);
  const outcome = stepIn(run, step);
  return [standingOf(run), outcome];
}

/** The banks whose lowest answer stands: the main one, and the others while an entry is held or missing. */
export function lowerBanks({ state }: { readonly state: Standing }): Bank[] {
  return [state.main, ...state.others].map((one) => one.bank);
}

/** Level of each drawn tank as a fraction from 0 to 1 with its u; one that is open is anything. */
export function levelsNow({ state }: { readonly state: Standing }): TankLevel[] {
  const bank = state.main.unknown.reduce(
    (now, tank_id) => bankAdvance({ bank: now, event: { kind: "missed", tank_id } }),
    state.main.bank,
  );
  return bankLevels({ bank });
}

/** Level of each tank of a bank as a fraction from 0 to 1 with its u. */
export function bankLevels({ bank }: { readonly bank: Bank }): TankLevel[] {
  const values = bankState({ bank });
  return bank.model.tank_ids.map((tank_id, t) => {
    const capacity = bank.model.capacity_l[t]!;
    const level = Math.min(Math.max(values[t]!.mean / capacity, 0), 1);
    return { tank_id, level, level_u: values[t]!.u / capacity, known_from: "estimate" };
  });
}

export interface PlanWay {
  readonly bank: Bank;
  readonly way: readonly Part[];
}

/** A way as `use` events: each tank in its turn, until the mean of what is left in it is gone; the last gives the rest. */
export function planWay({ bank, way }: PlanWay): Use[] {
  return planOn(stackOf(bank), way);
}

function firstStanding(model: Model, kappas: readonly number[]): Standing {
  const main: Branch = { bank: bankPrior({ model, kappas }), unknown: [], passing: false };
  return { main, others: [], notice: noticePrior({ model, kappas }) };
}

function sameUntil(before: readonly Step[], after: readonly Step[]): number {
  let n = 0;
  while (n < Math.min(before.length, after.length) && equal(before[n], after[n])) n++;
  return n;
}

/** Whether two plain values are alike in all their parts. */
function equal(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  const [first, second] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = Object.keys(first);
  return keys.length === Object.keys(second).length && keys.every((key) => equal(first[key], second[key]));
}
