/** Side outline of a trailer: drawbar, body, wheels, and the stand that it leans on when uncoupled. To scale. */
import { AXLE_PITCH_M, type Frame, type TrailerShape, trailerTailOf } from "./frame";
import { heightOn } from "./outline";
import { bottomWithArches, type Circle, circle, type Point, polyline } from "./path";

const WHEEL_RADIUS_M = 0.34; // about a 27 in tyre: only the picture rests on it
const ARCH_M = 0.4;
const SILL_M = 0.5;
const BALL_M = 0.45; // a coupling's usual height (from memory): likewise
const TOP_M = { box: 2.25, open: 1.1 };

export interface TrailerOutline {
  readonly body: string;
  readonly drawbar: string;
  readonly stand: string | null;
  readonly ball: Circle;
  /** The vehicle's own ball and its arm, from the tail. */
  readonly hitch: string;
  readonly hitchBall: Circle;
  readonly wheels: readonly Circle[];
}

export function trailerOutlineOf(trailer: TrailerShape, tail_m: number, frame: Frame): TrailerOutline {
  const { coupling_x_m: from_m, coupling_to_axle_m, axles } = trailer;
  const middle_m = from_m + coupling_to_axle_m;
  const wheels_m = Array.from({ length: axles }, (_, k) => middle_m + (k - (axles - 1) / 2) * AXLE_PITCH_M);
  const nose_m = noseOf(trailer);
  const arm_m = Math.min(tail_m, trailer.hitch_x_m) - 0.12;
  const bottom = bottomWithArches(frame, wheels_m, ARCH_M, SILL_M);
  const top = topOf(trailer, nose_m);
  return {
    body: `${polyline(frame, [[nose_m, SILL_M + 0.02], ...top, [trailerTailOf(trailer), SILL_M + 0.1]])}${bottom}Z`,
    drawbar: polyline(frame, [
      [from_m, BALL_M],
      [nose_m, SILL_M + 0.04],
    ]),
    stand: trailer.coupled ? null : standOf(frame, from_m + 0.45),
    ball: circle(frame, [from_m, BALL_M], 0.09),
    hitch: polyline(frame, [
      [arm_m, 0.68],
      [arm_m, BALL_M],
      [trailer.hitch_x_m, BALL_M],
    ]),
    hitchBall: circle(frame, [trailer.hitch_x_m, BALL_M], 0.07),
    wheels: wheels_m.map((x_m) => circle(frame, [x_m, WHEEL_RADIUS_M], WHEEL_RADIUS_M)),
  };
}

/** How high the trailer is at a place behind the vehicle's front axle, m: over its drawbar that of its ball. */
export function trailerTopAt(trailer: TrailerShape, x_m: number): number {
  const nose_m = noseOf(trailer);
  return x_m < nose_m ? BALL_M : heightOn(topOf(trailer, nose_m), x_m);
}

function noseOf({ coupling_x_m, coupling_to_axle_m }: TrailerShape): number {
  return coupling_x_m + Math.min(1.3, 0.38 * coupling_to_axle_m);
}

function topOf(trailer: TrailerShape, nose_m: number): Point[] {
  const tail_m = trailerTailOf(trailer);
  const top_m = TOP_M[trailer.body_form];
  if (trailer.body_form === "open")
    return [
      [nose_m, top_m],
      [tail_m, top_m],
    ];
  return [
    [nose_m, 1.1],
    [nose_m + 0.22, top_m - 0.08],
    [nose_m + 0.5, top_m],
    [tail_m - 0.1, top_m],
    [tail_m, top_m - 0.16],
  ];
}

/** The jockey wheel. */
function standOf(frame: Frame, x_m: number): string {
  const wheel = circle(frame, [x_m, 0.12], 0.12);
  const { x, y, r } = wheel;
  const leg = polyline(frame, [
    [x_m, BALL_M + 0.25],
    [x_m, 0.24],
  ]);
  return `${leg}M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`;
}
