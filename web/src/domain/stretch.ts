/** A stretch of road run through the bank as a whole: all tanks as one, and surfaces evenly mixed. */
import type { Bank } from "./bank";
import { checkRange, DomainError } from "./errors";
import { classIndex, type Estimate, type Model, shutOffU } from "./filter";

/** The one tank that stands for all of them. */
export const TOGETHER = "together";

/** Amounts of each class: true km for fuel, person-days for water. */
export type Way = Readonly<Record<string, number>>;

/** A stretch of the way: its length on the map, what is on it, and how many points of a picture it is worth. */
export interface Stretch {
  readonly distance_km: number;
  readonly way: Way;
  readonly points?: number;
}

/** The same bank with all tanks as one, which holds their sum; its shut-off errs as theirs do together. */
export function oneTank({ bank }: { readonly bank: Bank }): Bank {
  const { model } = bank;
  const tanks = model.tank_ids.length;
  const settings = { ...model.settings, full_u_l: Math.hypot(...shutOffU({ model })) };
  const capacity = model.capacity_l.reduce((total, one) => total + one, 0);
  const first = (row: readonly number[]) => row.slice(0, tanks).reduce((total, one) => total + one, 0);
  const narrow = (row: readonly number[]) => [first(row), ...row.slice(tanks)];
  const estimates = bank.estimates.map((one) => {
    const rows = one.cov.map(narrow);
    const top = rows[0]!.map((_, j) => first(rows.map((row) => row[j]!)));
    return { ...one, mean: narrow(one.mean), cov: [top, ...rows.slice(tanks)] };
  });
  return {
    ...bank,
    model: { ...model, tank_ids: [TOGETHER], capacity_l: [capacity], settings, full_u_l: null },
    estimates,
  };
}

export interface EvenUse {
  readonly bank: Bank;
  readonly way: Way;
}

/** The bank of one tank after a way whose classes are evenly mixed; amounts as the odometer counts them, >= 0. */
export function evenUse({ bank, way }: EvenUse): Bank {
  const { model, kappas } = bank;
  if (model.tank_ids.length !== 1) throw new DomainError("tank_ids", model.tank_ids, "one tank");
  const parts: number[] = model.class_ids.map(() => 0);
  for (const [class_id, amount] of Object.entries(way)) {
    const i = classIndex(model, class_id) - 1;
    parts[i] = parts[i]! + checkRange("amount", amount, { low: 0 });
  }
  return { ...bank, estimates: bank.estimates.map((one, j) => evenly(model, kappas[j]!, one, parts)) };
}

function evenly(model: Model, kappa: number, one: Estimate, parts: readonly number[]): Estimate {
  const { per, walk, walk_class, walk_ref, ell } = model.settings;
  const total = parts.reduce((sum, part) => sum + part, 0);
  const rate0 = model.rate0.map((rate) => one.scale * rate);
  const prior = parts.reduce((sum, part, i) => sum + part * rate0[i]!, 0);
  const own = rate0.map((rate) => (walk_class * rate) ** 2 / walk_ref);
  const common = walk ** 2 / walk_ref;
  const draw = parts.map((part) => part / per);
  // the level's row first, then the whole of F P F' + Q
  const top = one.cov[0]!.map(
    (value, j) => value - draw.reduce((sum, d, i) => sum + d * one.cov[i + 1]![j]!, 0),
  );
  const across = parts.map(
    (part, i) => (common * prior * rate0[i]! * total + own[i]! * part ** 2) / (2 * per),
  );
  let level = top[0]! - draw.reduce((sum, d, i) => sum + d * top[i + 1]!, 0);
  level += (common * prior ** 2 * total) / (3 * per ** 2);
  for (const [i, part] of parts.entries())
    level += (own[i]! * part ** 3) / (3 * per ** 2) + ((kappa * rate0[i]!) / per) ** 2 * ell * part;
  const beside = across.map((value, i) => top[i + 1]! - value);
  const rates = parts.map((part, i) => [
    beside[i]!,
    ...parts.map(
      (_, j) =>
        one.cov[i + 1]![j + 1]! + common * rate0[i]! * rate0[j]! * total + (i === j ? own[i]! * part : 0),
    ),
  ]);
  const used = draw.reduce((sum, d, i) => sum + d * one.mean[i + 1]!, 0);
  return { ...one, mean: [one.mean[0]! - used, ...one.mean.slice(1)], cov: [[level, ...beside], ...rates] };
}
