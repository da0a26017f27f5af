/** What is said of single wheels and of both sides of one weighing. */
import type { Book } from "@/domain/book";
import { weighedDay } from "@/domain/learning";
import type { Loads } from "@/domain/statics";

/** One wheel, or one side of the vehicle; the plan's figure is null where it has none. u are standard uncertainties. */
export interface WheelLoad {
  readonly row: string;
  readonly weighed_kg: number;
  readonly weighed_u_kg: number;
  readonly planned: { readonly kg: number; readonly u_kg: number } | null;
}

/** Left and right as the wheels were read; `frame` is the model that shares the plan's loads out to the wheels. */
export interface Sides {
  readonly wheels: readonly WheelLoad[];
  readonly sides: readonly WheelLoad[];
  readonly frame: string | null;
}

const WHEELS = ["front_left", "front_right", "rear_left", "rear_right"] as const;
const SIDES = { left: ["front_left", "rear_left"], right: ["front_right", "rear_right"] } as const;

/** Every wheel that the readings fix, and both sides where all four are; null without any. */
export function sidesOf(book: Book, weighing_id: string): Sides | null {
  const weighing = book.weighings.find((one) => one.id === weighing_id);
  if (!weighing) return null;
  const { visit, expected, geometry } = weighedDay({ book, weighing });
  const load = (row: string, parts: readonly string[]): WheelLoad[] => {
    const weighed = sumOf(visit.loads, parts);
    if (!weighed) return [];
    const planned = expected && sumOf(expected, parts);
    return [{ row, weighed_kg: weighed.kg, weighed_u_kg: weighed.u_kg, planned }];
  };
  const wheels = WHEELS.flatMap((row) => load(row, [row]));
  if (wheels.length === 0) return null;
  const sides = Object.entries(SIDES).flatMap(([row, parts]) => load(row, parts));
  const planned = wheels.some((one) => one.planned !== null);
  return { wheels, sides, frame: planned ? (geometry?.frame ?? null) : null };
}

/** A sum of rows with its exact u: errors that they share count fully. Null where a row is missing. */
function sumOf({ rows, mean_kg, cov_kg2 }: Loads, parts: readonly string[]) {
  const at = parts.map((row) => rows.indexOf(row));
  if (at.includes(-1)) return null;
  const kg = at.reduce((sum, i) => sum + mean_kg[i]!, 0);
  const variance = at.reduce((sum, i) => sum + at.reduce((inner, j) => inner + cov_kg2[i]![j]!, 0), 0);
  return { kg, u_kg: Math.sqrt(Math.max(variance, 0)) };
}
