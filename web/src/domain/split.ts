/** What statics alone cannot split: single wheels, and the two axles of a rear group. Each under two models. */
import { type Geometry, rowsOf, SINGLES, WHEELS } from "./axles";
import type { Book } from "./book";
import { baseCorrelationOf, geometryOf, planIn } from "./plan";
import type { State } from "./state";
import { loads, uKg, valueKg } from "./statics";

/** A load under the vehicle's own model, kg, and what the other model says of it. */
export interface Share {
  readonly row: string;
  readonly value_kg: number;
  readonly u_kg: number;
  readonly other_kg: number;
}

/** Wheels (none until both tracks are known) and axles of a rear group (none with one); models as in `Geometry`. */
export interface Split {
  readonly frame: string;
  readonly front_roll_share: number;
  readonly wheels: readonly Share[];
  readonly second_axle: string;
  readonly singles: readonly Share[];
}

export interface PlanSplit {
  readonly book: Book;
  readonly state: State;
  /** Count what is on order too. */
  readonly ordered?: boolean;
}

/** The plan's wheel loads and single rear axles in a state, under the vehicle's models and the other ones. */
export function planSplit({ book, state, ordered = false }: PlanSplit): Split {
  const { lasting, passing } = planIn({ book, state, ordered });
  const parts = [...lasting, ...passing];
  const geometry = geometryOf({ book, state });
  const base_correlation = baseCorrelationOf({ book });
  const { frame = "flexible", front_roll_share = 0.5, second_axle = "pair" } = geometry;
  const stiff = { ...geometry, frame: frame === "rigid" ? "flexible" : "rigid" };
  const other = { ...geometry, second_axle: second_axle === "springs" ? "pair" : "springs" };
  const shares = (asked: readonly string[], second: Geometry): Share[] => {
    const rows = asked.filter((row) => rowsOf(geometry).includes(row));
    if (rows.length === 0) return [];
    const own = loads({ parts, geometry, rows, base_correlation });
    const beside = loads({ parts, geometry: second, rows, base_correlation });
    return rows.map((row) => ({
      ...{ row, value_kg: valueKg(own, row), u_kg: uKg(own, row) },
      other_kg: valueKg(beside, row),
    }));
  };
  const [wheels, singles] = [shares(WHEELS, stiff), shares(SINGLES, other)];
  return { frame, front_roll_share, wheels, second_axle, singles };
}
