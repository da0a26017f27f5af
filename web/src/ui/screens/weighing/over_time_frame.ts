/** Where things lie in the picture of a load over time: days to x, kilograms to y. */
import type { Taught } from "@/services/weighed";
import { twoSided } from "@/ui/text/figures";

export type Point = Taught["rows"][number] & { readonly id: string; readonly at: string };

/** From x on, the value and its u. */
export interface Step {
  readonly x: number;
  readonly kg: number;
  readonly u_kg: number;
}

const LEAST_GAP = 18; // so that the hatched plans of two weighings do not overlap
const LEAST_SPAN_KG = 40;
const TICKS = [10, 20, 50, 100, 200, 500, 1_000, 2_000, 5_000];
const TICKS_AT_MOST = 5;

export class Frame {
  readonly width = 360;
  readonly height = 190;
  readonly left = 52;
  readonly right = 354;
  readonly top = 8;
  readonly floor = 160;
  readonly xs: readonly number[];
  readonly ticks: readonly number[];
  private readonly from: number;
  private readonly to: number;

  constructor(points: readonly Point[]) {
    this.xs = this.placesOf(points.map((one) => Date.parse(one.at)));
    // what was known before the first weighing may reach far beyond: its band is cut at the edge
    const ends = points.flatMap((one) => [
      ...around(one.planned_kg, one.planned_u_kg),
      ...around(one.after_kg, one.after_u_kg),
      ...(one.weighed_kg === null ? [] : around(one.weighed_kg, one.weighed_u_kg ?? 0)),
      one.before_kg,
    ]);
    const [least, most] = [Math.min(...ends), Math.max(...ends)];
    const room = Math.max((LEAST_SPAN_KG - (most - least)) / 2, (most - least) * 0.06);
    [this.from, this.to] = [least - room, most + room];
    this.ticks = ticksBetween(this.from, this.to);
  }

  /** Kilograms to y, cut at the edges. */
  y(kg: number): number {
    const share = (kg - this.from) / (this.to - this.from);
    return round(this.floor - Math.min(Math.max(share, 0), 1) * (this.floor - this.top));
  }

  /** The full vehicle as it was known: two steps per weighing, before and after it. */
  steps(points: readonly Point[]): Step[] {
    const first = points[0]!;
    const out: Step[] = [{ x: this.left, kg: first.before_kg, u_kg: first.before_u_kg }];
    for (const [i, one] of points.entries()) {
      const x = this.xs[i]!;
      out.push(
        { x, kg: one.before_kg, u_kg: one.before_u_kg },
        { x, kg: one.after_kg, u_kg: one.after_u_kg },
      );
    }
    const last = points.at(-1)!;
    return [...out, { x: this.right, kg: last.after_kg, u_kg: last.after_u_kg }];
  }

  /** By time where that leaves room for each, else one beside the other. */
  private placesOf(times: readonly number[]): number[] {
    const [from, to] = [this.left + 30, this.right - 24];
    const span = times.at(-1)! - times[0]!;
    const linear = times.map((one) => from + (span > 0 ? ((one - times[0]!) / span) * (to - from) : 0));
    const near = linear.some((x, i) => i > 0 && x - linear[i - 1]! < LEAST_GAP);
    const places = near ? times.map((_, i) => from + (i / (times.length - 1)) * (to - from)) : linear;
    return places.map(round);
  }
}

function around(kg: number, u_kg: number): number[] {
  return [kg - twoSided(u_kg), kg + twoSided(u_kg)];
}

function ticksBetween(from: number, to: number): number[] {
  const step = TICKS.find((one) => (to - from) / one <= TICKS_AT_MOST) ?? TICKS.at(-1)!;
  const out: number[] = [];
  for (let kg = Math.ceil(from / step) * step; kg <= to; kg += step) out.push(kg);
  return out;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
