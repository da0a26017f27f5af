/** The paper that a beam is drawn on: metres to drawing units, one scale for both directions. */

export interface Shape {
  readonly body_form: "utility" | "wagon" | "van" | "cab_chassis";
  readonly wheelbase_m: number;
  /** First to second rear axle; 0 where there is one. */
  readonly rear_spread_m: number;
  readonly front_overhang_m: number;
  /** Behind the last axle. */
  readonly rear_overhang_m: number;
}

export interface TrailerShape {
  readonly body_form: "box" | "open";
  /** Where the vehicle has its coupling. */
  readonly hitch_x_m: number;
  /** Where the trailer's coupling is drawn: there, or a little behind when it is uncoupled. */
  readonly coupling_x_m: number;
  readonly coupling_to_axle_m: number;
  readonly axles: number;
  readonly rear_overhang_m: number;
  readonly coupled: boolean;
  readonly dim: boolean;
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
  readonly rear_axles?: "single" | "load_sharing_pair" | "independent_pair" | null | undefined;
  readonly rear_spread_m?: number | null | undefined;
  readonly front_overhang_m?: number | null | undefined;
  readonly rear_overhang_m?: number | null | undefined;
}

export interface TrailerFacts {
  readonly body_form?: TrailerShape["body_form"] | null | undefined;
  readonly coupling_x_m?: number | null | undefined;
  readonly coupling_to_axle_m?: number | null | undefined;
  readonly axles?: number | null | undefined;
  readonly rear_overhang_m?: number | null | undefined;
  readonly coupled: boolean;
  /** It does not take part in what the drawing shows. */
  readonly dim?: boolean;
}

// Middle of the range for a mid-size four-wheel-drive utility and a camping trailer, their axles about 30 in tyres
// close together (from memory); only the picture rests on them.
const TYPICAL = { wheelbase_m: 3.2, rear_spread_m: 1.2, front_overhang_m: 0.9, rear_overhang_m: 1.35 };
const TYPICAL_TRAILER = { coupling_to_axle_m: 3.4, rear_overhang_m: 1.5 };
const BEHIND_THE_TAIL_M = 0.15;
const GAP_M = 0.8;
export const AXLE_PITCH_M = 0.85;
const HEIGHT_M = { utility: 1.95, wagon: 1.85, van: 2.1, cab_chassis: 1.9, box: 2.25, open: 1.15 };

/** What is known of the body, the rest filled with typical figures so that there is always a picture. */
export function shapeOf(facts: BodyFacts): Shape {
  const pair = facts.rear_axles === "load_sharing_pair" || facts.rear_axles === "independent_pair";
  return {
    body_form: facts.body_form ?? "utility",
    wheelbase_m: facts.wheelbase_m ?? TYPICAL.wheelbase_m,
    rear_spread_m: pair ? (facts.rear_spread_m ?? TYPICAL.rear_spread_m) : 0,
    front_overhang_m: facts.front_overhang_m ?? TYPICAL.front_overhang_m,
    rear_overhang_m: facts.rear_overhang_m ?? TYPICAL.rear_overhang_m,
  };
}

/** Likewise of a trailer; it stands a little behind the vehicle when it is uncoupled. */
export function trailerShapeOf(facts: TrailerFacts, shape: Shape): TrailerShape {
  const hitch_x_m = facts.coupling_x_m ?? tailOf(shape) + BEHIND_THE_TAIL_M;
  return {
    body_form: facts.body_form ?? "box",
    hitch_x_m,
    coupling_x_m: hitch_x_m + (facts.coupled ? 0 : GAP_M),
    coupling_to_axle_m: facts.coupling_to_axle_m ?? TYPICAL_TRAILER.coupling_to_axle_m,
    axles: facts.axles ?? 1,
    rear_overhang_m: facts.rear_overhang_m ?? TYPICAL_TRAILER.rear_overhang_m,
    coupled: facts.coupled,
    dim: facts.dim ?? false,
  };
}

/** The vehicle's rearmost point, in metres behind the front axle. */
export function tailOf(shape: Shape): number {
  return shape.wheelbase_m + shape.rear_spread_m + shape.rear_overhang_m;
}

/** The trailer's rearmost point, likewise. */
export function trailerTailOf(trailer: TrailerShape): number {
  const last_m = ((trailer.axles - 1) * AXLE_PITCH_M) / 2;
  return trailer.coupling_x_m + trailer.coupling_to_axle_m + last_m + trailer.rear_overhang_m;
}

/** A frame that holds the body, the trailer, everything placed on them, and room for arrows above. */
export function frameFor(
  shape: Shape,
  width: number,
  above: number,
  places_m: readonly number[] = [],
  trailer: TrailerShape | null = null,
): Frame {
  const margin_m = 0.12;
  const tail_m = trailer ? Math.max(tailOf(shape), trailerTailOf(trailer)) : tailOf(shape);
  const from_m = Math.min(-shape.front_overhang_m, ...places_m) - margin_m;
  const to_m = Math.max(tail_m, ...places_m) + margin_m;
  const units_per_m = width / (to_m - from_m);
  const tallest_m = Math.max(heightOf(shape), trailer ? heightOf(trailer) : 0);
  const ground = above + tallest_m * units_per_m;
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
export function heightOf({ body_form }: Pick<Shape | TrailerShape, "body_form">): number {
  return HEIGHT_M[body_form];
}
