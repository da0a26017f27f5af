/** SVG paths on a frame: metres in, drawing units out, with a tenth of a unit to spare. */
import type { Frame } from "./frame";

export type Point = readonly [x_m: number, z_m: number];

export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly r: number;
}

export function at(frame: Frame, [x_m, z_m]: Point): string {
  return `${round(frame.x(x_m))} ${round(frame.z(z_m))}`;
}

export function polyline(frame: Frame, points: readonly Point[]): string {
  return `M${points.map((point) => at(frame, point)).join("L")}`;
}

export function polygon(frame: Frame, points: readonly Point[]): string {
  return `${polyline(frame, points)}Z`;
}

export function circle(frame: Frame, [x_m, z_m]: Point, radius_m: number): Circle {
  return {
    x: round(frame.x(x_m)),
    y: round(frame.z(z_m)),
    r: round(radius_m * frame.units_per_m),
  };
}

/** The lower edge from the tail forwards, up and over each wheel; wheels close together share one opening. */
export function bottomWithArches(
  frame: Frame,
  wheels_m: readonly number[],
  arch_m: number,
  sill_m: number,
): string {
  const r = round(arch_m * frame.units_per_m);
  const quarter = (to: Point) => `A${r} ${r} 0 0 0 ${at(frame, to)}`;
  const backwards = [...wheels_m].sort((a, b) => b - a);
  return backwards
    .map((x_m, k) => {
      const joined = (other: number | undefined) =>
        other !== undefined && Math.abs(other - x_m) < 2.1 * arch_m;
      const rise = joined(backwards[k - 1])
        ? `L${at(frame, [x_m, sill_m + arch_m])}`
        : `L${at(frame, [x_m + arch_m, sill_m])}${quarter([x_m, sill_m + arch_m])}`;
      return joined(backwards[k + 1]) ? rise : rise + quarter([x_m - arch_m, sill_m]);
    })
    .join("");
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
