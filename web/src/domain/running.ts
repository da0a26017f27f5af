/** A log while it is run: the branches and the notice as stacks that each step changes in place. */

import type { DomainEvent, Use } from "./events";
import { isObservation } from "./events";
import type { Innovation } from "./filter";
import type { Branch, Held, Outcome, Part, Standing, Step } from "./journal";
import { innovationMixed, meanMixed, sumMixed, weightsOf } from "./mixed";
import { noticeOf, noticeOn, type Watch, watchOf } from "./notice";
import { bankOf, classPlace, copyOf, type Stack, shutOffAt, stackAdvance, stackOf } from "./stack";

/** An observation further off than this many of its standard deviations is held (assumed). */
export const HOLD = 4;
/** Above the capacity by so many of the level's sd, or of the tank's own shut-off, a fill is held (assumed). */
export const OVERFULL = 3;
/** Of so many entries in doubt every choice is run (assumed). */
export const EVERY_CHOICE = 3;
/** Branches beside the main one; beyond them the last takes all that is in doubt (assumed). */
export const MOST_OTHERS = 10;
/** Driven further than the tanks reach by this share of them: held (assumed). */
export const BEYOND = 0.5;

/** `Branch` with its bank as a stack. */
export interface RunBranch {
  readonly stack: Stack;
  unknown: readonly string[];
  readonly passing: boolean;
}

/** `Standing` as it is run. */
export interface Running {
  main: RunBranch;
  others: readonly RunBranch[];
  readonly watch: Watch;
}

/** A standing to be run on; the given one stays as it is. */
export function runningOf({ main, others, notice }: Standing): Running {
  const opened = ({ bank, unknown, passing = false }: Branch): RunBranch => ({
    stack: stackOf(bank),
    unknown,
    passing,
  });
  return { main: opened(main), others: others.map(opened), watch: watchOf(notice) };
}

/** Where a run stands now; it may then be run on. */
export function standingOf({ main, others, watch }: Running): Standing {
  const closed = ({ stack, unknown, passing }: RunBranch): Branch => ({
    bank: bankOf(stack),
    unknown,
    passing,
  });
  return { main: closed(main), others: others.map(closed), notice: noticeOf(watch) };
}

/** One step further: the way, then the entry, which is used, held or left out. */
export function stepIn(run: Running, step: Step): Outcome {
  const before = run.main;
  for (const use of drive(before, step.way ?? [])) noticeOn(run.watch, use);
  for (const one of run.others) drive(one, step.way ?? []);
  const after = copied(before);
  const { used, readings } = apply(after, step);
  const held = step.refused ? null : (step.doubt ?? doubt(before, after, step, readings));
  if (step.refused || held) {
    const typed = held ? doubled(run).map((one) => ({ ...copied(one), passing: false })) : [];
    for (const one of typed) apply(one, step);
    for (const one of [before, ...run.others]) one.unknown = opened(one, step.tank_ids ?? []);
    run.others = beside(run.others, typed);
    return outcomeOf(step, held ? readings : [], held, null, before);
  }
  let alarm: Outcome["alarm"] = null;
  for (const event of used) alarm = noticeOn(run.watch, event) ?? alarm;
  run.others = othersAfter(run, step);
  run.main = after;
  return outcomeOf(step, readings, null, alarm, after);
}

/** A way as `use` events: each tank in its turn, until the mean of what is left in it is gone; the last gives the rest. */
export function planOn(stack: Stack, way: readonly Part[]): Use[] {
  const { model } = stack;
  const tanks = model.tank_ids.length;
  if (tanks === 1) return way.filter((part) => part.amount > 0).map((part) => ({ kind: "use", ...part }));
  const weights = weightsOf(stack);
  const levels = model.tank_ids.map((_, t) => Math.max(meanMixed(stack, t, weights), 0));
  const uses: Use[] = [];
  for (const { class_id, amount } of way) {
    const rate = meanMixed(stack, classPlace(model, class_id), weights) / model.settings.per;
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

function copied(branch: RunBranch): RunBranch {
  return { ...branch, stack: copyOf(branch.stack) };
}

function drive({ stack }: RunBranch, way: readonly Part[]): Use[] {
  const uses = planOn(stack, way);
  for (const event of uses) stackAdvance(stack, event);
  return uses;
}

interface Applied {
  readonly used: readonly DomainEvent[];
  readonly readings: readonly Innovation[];
}

function apply(branch: RunBranch, step: Step, ignoreMissed = false): Applied {
  const { stack } = branch;
  const used: DomainEvent[] = [];
  const readings: Innovation[] = [];
  for (const event of step.refused ? [] : (step.events ?? [])) {
    if (ignoreMissed && event.kind === "missed") {
      branch.unknown = [...branch.unknown, event.tank_id];
      continue;
    }
    const open = branch.unknown;
    const forgotten = open.length > 0 ? readTanks(event).filter((one) => open.includes(one)) : [];
    if (forgotten.length > 0) branch.unknown = open.filter((one) => !forgotten.includes(one));
    for (const tank_id of forgotten) {
      const reset: DomainEvent = { kind: "missed", tank_id };
      stackAdvance(stack, reset);
      used.push(reset);
    }
    if (isObservation(event)) readings.push(innovationMixed(stack, event));
    stackAdvance(stack, event);
    used.push(event);
  }
  return { used, readings };
}

function readTanks(event: DomainEvent): readonly string[] {
  if (!isObservation(event)) return [];
  return event.kind === "full" ? event.tank_ids : [event.tank_id];
}

function doubt(
  before: RunBranch,
  after: RunBranch,
  step: Step,
  readings: readonly Innovation[],
): Held | null {
  if (step.confirmed) return null;
  const { model } = before.stack;
  const events = step.events ?? [];
  if (step.way?.length && events.length > 0 && before.unknown.length === 0) {
    const missed = events.some((event) => event.kind === "missed");
    const whole = model.capacity_l.reduce((sum, capacity) => sum + capacity, 0);
    const left = missed ? whole : sumMixed(before.stack, 0, model.tank_ids.length).mean;
    if (left < -BEYOND * whole) return "beyond_tank";
  }
  if (readings.some((one) => Math.abs(one.z) > HOLD)) return "far_off";
  const filled = new Set(events.flatMap((event) => (event.kind === "fill" ? [event.tank_id] : [])));
  const over = model.tank_ids.some((tank_id, t) => {
    if (!filled.has(tank_id)) return false;
    const { mean, u } = sumMixed(after.stack, t);
    return mean - model.capacity_l[t]! > OVERFULL * Math.max(u, shutOffAt(model, t));
  });
  return over ? "overfull" : null;
}

function opened({ unknown }: RunBranch, tank_ids: readonly string[]): readonly string[] {
  const added = tank_ids.filter((tank_id) => !unknown.includes(tank_id));
  return added.length > 0 ? [...unknown, ...added] : unknown;
}

/** The branches that a new doubt gives a second one beside: each, or only the one that takes all as typed. */
function doubled({ main, others }: Running): readonly RunBranch[] {
  const every = [main, ...others];
  return 2 * every.length <= 2 ** EVERY_CHOICE ? every : every.slice(-1);
}

/** The others with those of a new doubt; where they are too many, the last gives way. */
function beside(others: readonly RunBranch[], more: readonly RunBranch[]): readonly RunBranch[] {
  const room = others.length + more.length <= MOST_OTHERS || more.length === 0;
  return [...(room ? others : others.slice(0, -1)), ...more];
}

/** The other branches after a step that counts; one that takes a missed fill for none ends at the next reading. */
function othersAfter(run: Running, step: Step): readonly RunBranch[] {
  const missed = (step.events ?? []).some((event) => event.kind === "missed");
  const none = missed ? doubled(run).map((one) => ({ ...copied(one), passing: true })) : [];
  for (const one of run.others) apply(one, step);
  for (const one of none) apply(one, step, true);
  const lasts = (one: RunBranch) => !one.passing || one.unknown.length > 0;
  return beside(run.others.filter(lasts), none.filter(lasts));
}

function outcomeOf(
  { entry_id }: Step,
  readings: readonly Innovation[],
  held: Held | null,
  alarm: Outcome["alarm"],
  { stack }: RunBranch,
): Outcome {
  const weights = weightsOf(stack);
  const levels_l = stack.model.tank_ids.map((_, t) => meanMixed(stack, t, weights));
  return { entry_id, readings, held, alarm, levels_l };
}
