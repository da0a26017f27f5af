/** The interval of a scale's display as the figures themselves suggest it. Pure. */

export interface Shown {
  readonly value_kg: number;
  readonly typed: readonly [digits: string, unit: string];
  readonly struck_out: string | null;
}

const STEPS = [20, 10, 5, 2, 1]; // usual steps of truck scales, of kg or lb (from memory)
const LAST_STEP = 10_000; // no class's table reaches further, in intervals: OIML R 76-1 table 6 (from memory)
const POUND_KG = 0.45359237; // international agreement of 1959, NIST SP 811

/** The largest usual step that divides every figure, kg; of pounds where every figure was read in pounds. */
export function guessedInterval(readings: readonly Shown[]): number {
  const counted = readings.filter((one) => !one.struck_out);
  const unit_kg = counted.length > 0 && counted.every(({ typed }) => typed[1] === "lb") ? POUND_KG : 1;
  const greatest_kg = Math.max(0, ...counted.map((one) => one.value_kg));
  const steps = STEPS.map((step) => step * unit_kg).filter((step) => greatest_kg <= LAST_STEP * step);
  const found = steps.find((step_kg) => stepsBy(counted, step_kg)) ?? steps.at(-1);
  return found ?? STEPS[0]! * unit_kg;
}

/** Whether every figure that counts is a whole number of steps. */
export function stepsBy(readings: readonly Shown[], step_kg: number): boolean {
  return readings
    .filter((one) => !one.struck_out)
    .every(({ value_kg }) => Math.abs(value_kg / step_kg - Math.round(value_kg / step_kg)) < 1e-6);
}
