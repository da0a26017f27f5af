/** The paper that a beam is drawn on: metres to drawing units, one scale for both directions. */

export interface Shape {
  readonly body_form: "utility" | "wagon" | "van" | "cab_chassis";
  readonly wheelbase_m: number;
  readonly front_overhang_m: number;
  readonly rear_overhang_m: number;
}

export interface Frame {
  readonly width: number;
  readonly units_per_m: number;
  /** Left end of the drawn stretch, in metres behind the front axle. */
  readonly from_m: number;
  readonly to_m: number;
  /** Drawing unit of the ground line. */
  readonly ground: number;
  x(metres: number): number;
  z(metres: number): number;
}

export interface BodyFacts {
  readonly body_form?: Shape["body_form"] | null | undefined;
  readonly wheelbase_m?: number | null | undefined;
  readonly front_overhang_m?: number | null | undefined;
  readonly rear_overhang_m?: number | null | undefined;
}

// Middle of the range for a mid-size four-wheel-drive utility (from memory); only the picture rests on them.
const TYPICAL = { wheelbase_m: 3.2, front_overhang_m: 0.9, rear_overhang_m: 1.35 };

/** What is known of the body, the rest filled with typical figures so that there is always a picture. */
export function shapeOf(facts: BodyFacts): Shape {
  return {
    body_form: facts.body_form ?? "utility",
    wheelbase_m: facts.wheelbase_m ?? TYPICAL.wheelbase_m,
    front_overhang_m: facts.front_overhang_m ?? TYPICAL.front_overhang_m,
    rear_overhang_m: facts.rear_overhang_m ?? TYPICAL.rear_overhang_m,
  };
}

/** A frame that holds the body, everything placed on it, and room for arrows above and figures below. */
export function frameFor(
  shape: Shape,
  width: number,
  above: number,
  places_m: readonly number[] = [],
): Frame {
  const margin_m = 0.12;
  const from_m = Math.min(-shape.front_overhang_m, ...places_m) - margin_m;
  const to_m = Math.max(shape.wheelbase_m + shape.rear_overhang_m, ...places_m) + margin_m;
  const units_per_m = width / (to_m - from_m);
  const ground = above + heightOf(shape) * units_per_m;
  return {
    width,
    units_per_m,
    from_m,
    to_m,
    ground,
    x: (metres) => (metres - from_m) * units_per_m,
    z: (metres) => ground - metres * units_per_m,
  };
}

/** Height of the roof or box, in metres. */
export function heightOf(shape: Shape): number {
  return { utility: 1.95, wagon: 1.85, van: 2.1, cab_chassis: 1.9 }[shape.body_form];
}
