/**
 * A log run through the bank, entry by entry, so that it can be continued and one bad entry hides nothing.
 * What an entry says is held when it does not fit; the lower answer of two branches stands.
 */
import { type Bank, bankAdvance, bankInnovation, bankPrior, bankState, bankTotal } from "./bank";
import { type DomainEvent, isObservation, type Use } from "./events";
import { classIndex, type Innovation, type Model } from "./filter";
import { type Notice, noticeAdvance, noticePrior } from "./notice";
import type { TankLevel } from "./state";

/** An observation further off than this many of its standard deviations is held. */
export const HOLD = 4;
/** So many standard deviations above the capacity a fill is held. */
export const OVERFULL = 3;
/** Driven further than the tanks reach by this share of them: held (assumed). */
export const BEYOND = 0.5;
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
}

/** All that the next step needs. `other` answers differently while an entry is held or missing. */
export interface Standing {
  readonly main: Branch;
  readonly other: Branch | null;
  readonly held: boolean;
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
  let [start, state] = [0, firstStanding(model, kappas)];
  let kept: (readonly [number, Standing])[] = [];
  let outcomes: Outcome[] = [];
  if (previous && equal([previous.model, previous.kappas], [model, kappas])) {
    const same = sameUntil(previous.steps, steps);
    kept = previous.kept.filter(([n]) => n <= same);
    const last = kept.at(-1);
    if (last) {
      [start, state] = last;
      outcomes = previous.outcomes.slice(0, start);
    }
  }
  for (let n = start; n < steps.length; n++) {
    const [next, outcome] = stepOn({ state, step: steps[n]! });
    state = next;
    outcomes.push(outcome);
    kept.push([n + 1, state]);
    const before = kept.at(-3);
    if (before && before[0] % EVERY !== 0) kept.splice(-3, 1);
  }
  return { model, kappas, steps, outcomes, state, kept };
}

export interface StepOn {
  readonly state: Standing;
  readonly step: Step;
}

/** One step further: the way, then the entry, which is used, held or left out. */
export function stepOn({ state, step }: StepOn): [Standing, Outcome] {
  const [main, uses] = drive(state.main, step.way ?? []);
  const other = state.other ? drive(state.other, step.way ?? [])[0] : null;
  let notice = uses.reduce((now, event) => noticeAdvance({ notice: now, event }), state.notice);
  const { branch, used, readings } = apply(main, step);
  const held = step.refused ? null : (step.doubt ?? doubt(main, branch, step, readings));
  if (step.refused || held) {
    const left = { main: opened(main, step.tank_ids ?? []), other, held: state.held, notice };
    const settled = held ? { ...left, other: apply(other ?? main, step).branch, held: true } : left;
    return [settled, outcomeOf(step, held ? readings : [], held, null, settled)];
  }
  let alarm: Outcome["alarm"] = null;
  for (const event of used) {
    notice = noticeAdvance({ notice, event });
    alarm = notice.alarm ?? alarm;
  }
  const settled = {
    main: branch,
    other: otherBranch(main, other, state.held, step),
    held: state.held,
    notice,
  };
  return [settled, outcomeOf(step, readings, null, alarm, settled)];
}

/** The banks whose lower answer stands: the main one, and the other while an entry is held or missing. */
export function lowerBanks({ state }: { readonly state: Standing }): Bank[] {
  return state.other === null ? [state.main.bank] : [state.main.bank, state.other.bank];
}

/** Level of each drawn tank as a fraction from 0 to 1 with its u; one that is open is anything. */
export function levelsNow({ state }: { readonly state: Standing }): TankLevel[] {
  const bank = state.main.unknown.reduce(
    (now, tank_id) => bankAdvance({ bank: now, event: { kind: "missed", tank_id } }),
    state.main.bank,
  );
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
  const tanks = bank.model.tank_ids.length;
  if (tanks === 1) return way.filter((part) => part.amount > 0).map((part) => ({ kind: "use", ...part }));
  const state = bankState({ bank });
  const levels = state.slice(0, tanks).map((value) => Math.max(value.mean, 0));
  const uses: Use[] = [];
  for (const { class_id, amount } of way) {
    const rate = state[classIndex(bank.model, class_id)]!.mean / bank.model.settings.per;
    let left = amount;
    for (let t = 0; t < tanks; t++) {
      const last = t === tanks - 1 || rate <= 0;
      const taken = last ? left : Math.min(left, levels[t]! / rate);
      if (taken > 0) {
        const shares = levels.map((_, u) => (u === t ? 1 : 0));
        uses.push({ kind: "use", amount: taken, class_id, shares });
        levels[t] = Math.max(levels[t]! - taken * rate, 0);
        left -= taken;
      }
      if (last) break;
    }
  }
  return uses;
}

function firstStanding(model: Model, kappas: readonly number[]): Standing {
  const main: Branch = { bank: bankPrior({ model, kappas }), unknown: [] };
  return { main, other: null, held: false, notice: noticePrior({ model, kappas }) };
}

function drive(branch: Branch, way: readonly Part[]): [Branch, Use[]] {
  const uses = planWay({ bank: branch.bank, way });
  const bank = uses.reduce((now, event) => bankAdvance({ bank: now, event }), branch.bank);
  return [{ ...branch, bank }, uses];
}

interface Applied {
  readonly branch: Branch;
  readonly used: readonly DomainEvent[];
  readonly readings: readonly Innovation[];
}

function apply(branch: Branch, step: Step, ignoreMissed = false): Applied {
  let { bank, unknown } = branch;
  const used: DomainEvent[] = [];
  const readings: Innovation[] = [];
  for (const event of step.refused ? [] : (step.events ?? [])) {
    if (ignoreMissed && event.kind === "missed") {
      unknown = [...unknown, event.tank_id];
      continue;
    }
    const open = unknown;
    const forgotten = readTanks(event).filter((tank_id) => open.includes(tank_id));
    unknown = open.filter((tank_id) => !forgotten.includes(tank_id));
    const resets = forgotten.map((tank_id): DomainEvent => ({ kind: "missed", tank_id }));
    for (const one of [...resets, event]) {
      if (isObservation(one)) readings.push(bankInnovation({ bank, event: one }));
      bank = bankAdvance({ bank, event: one });
      used.push(one);
    }
  }
  return { branch: { bank, unknown }, used, readings };
}

function readTanks(event: DomainEvent): readonly string[] {
  if (!isObservation(event)) return [];
  return event.kind === "full" ? event.tank_ids : [event.tank_id];
}

function doubt(main: Branch, after: Branch, step: Step, readings: readonly Innovation[]): Held | null {
  if (step.confirmed) return null;
  const { model } = main.bank;
  const events = step.events ?? [];
  if (step.way?.length && events.length > 0 && main.unknown.length === 0) {
    const missed = events.some((event) => event.kind === "missed");
    const whole = model.capacity_l.reduce((sum, capacity) => sum + capacity, 0);
    if (!missed && bankTotal({ bank: main.bank }).mean < -BEYOND * whole) return "beyond_tank";
  }
  if (readings.some((one) => Math.abs(one.z) > HOLD)) return "far_off";
  const state = bankState({ bank: after.bank });
  const filled = new Set(events.flatMap((event) => (event.kind === "fill" ? [event.tank_id] : [])));
  const over = model.tank_ids.some((tank_id, t) => {
    const above = state[t]!.mean - model.capacity_l[t]!;
    return filled.has(tank_id) && above > OVERFULL * Math.max(state[t]!.u, model.settings.full_u_l);
  });
  return over ? "overfull" : null;
}

function opened(branch: Branch, tank_ids: readonly string[]): Branch {
  const added = tank_ids.filter((tank_id) => !branch.unknown.includes(tank_id));
  return { ...branch, unknown: [...branch.unknown, ...added] };
}

/** The other branch after a step that counts; it ends when its levels are read again and nothing is held. */
function otherBranch(main: Branch, other: Branch | null, held: boolean, step: Step): Branch | null {
  const missed = (step.events ?? []).some((event) => event.kind === "missed");
  if (other === null && !missed) return null;
  const { branch } = apply(other ?? main, step, true);
  return held || branch.unknown.length > 0 ? branch : null;
}

function outcomeOf(
  step: Step,
  readings: readonly Innovation[],
  held: Held | null,
  alarm: Outcome["alarm"],
  { main }: Standing,
): Outcome {
  const levels = bankState({ bank: main.bank }).slice(0, main.bank.model.tank_ids.length);
  return { entry_id: step.entry_id, readings, held, alarm, levels_l: levels.map((one) => one.mean) };
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
