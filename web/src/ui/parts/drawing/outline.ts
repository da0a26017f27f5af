/** Side outlines of four body forms as SVG paths: a few straight lines and two wheel arches, to scale. */
import { type Frame, type Shape, tailOf } from "./frame";
import { bottomWithArches, type Circle, circle, type Point, polygon, polyline } from "./path";

export interface Outline {
  readonly body: string;
  readonly box: string | null;
  readonly glass: string;
  readonly wheels: readonly Circle[];
}

const WHEEL_RADIUS_M = 0.385; // about a 31 in tyre: only the picture rests on it
const ARCH_M = 0.48;
const SILL_M = 0.46;

/** The paths of one vehicle on its frame. */
export function outlineOf(shape: Shape, frame: Frame): Outline {
  const top = tops[shape.body_form](shape);
  const second = shape.rear_spread_m > 0 ? [shape.wheelbase_m + shape.rear_spread_m] : [];
  const wheels_m = [0, shape.wheelbase_m, ...second];
  const front: Point[] = [[-shape.front_overhang_m, SILL_M], ...top.line];
  const tail: Point = [tailOf(shape), 0.68];
  return {
    body: `${polyline(frame, [...front, tail])}${bottomWithArches(frame, wheels_m, ARCH_M, SILL_M)}Z`,
    box: top.box ? polygon(frame, top.box) : null,
    glass: polygon(frame, top.glass),
    wheels: wheels_m.map((x_m) => circle(frame, [x_m, WHEEL_RADIUS_M], WHEEL_RADIUS_M)),
  };
}

/** How high the vehicle is at a place, m: that of its nearest end ahead of it and behind it. */
export function topAt(shape: Shape, x_m: number): number {
  const { line, box } = tops[shape.body_form](shape);
  return Math.max(heightOn(line, x_m), box ? heightOn(box, x_m) : 0);
}

/** The highest point of a line at a place; past its ends that of the end. */
export function heightOn(line: readonly Point[], x_m: number): number {
  const inside = line.slice(1).flatMap(([x, z], k) => {
    const [from, low] = line[k]!;
    if (x_m < Math.min(from, x) || x_m > Math.max(from, x)) return [];
    return x === from ? [Math.max(low, z)] : [low + ((z - low) * (x_m - from)) / (x - from)];
  });
  const [first, last] = [line[0]!, line.at(-1)!];
  return inside.length > 0 ? Math.max(...inside) : x_m < first[0] ? first[1] : last[1];
}

interface Top {
  readonly line: readonly Point[];
  readonly glass: readonly Point[];
  readonly box?: readonly Point[];
}

const tops: Record<Shape["body_form"], (shape: Shape) => Top> = {
  utility: (s) => {
    const cab_m = s.wheelbase_m - 0.72;
    const tail_m = tailOf(s);
    return {
      line: [...nose(s), [1.1, 1.74], [cab_m - 0.1, 1.79], [cab_m, 1.74], [cab_m, 0.98], [tail_m, 0.98]],
      glass: [
        [0.72, 1.16],
        [1.16, 1.65],
        [Math.max(1.38, cab_m - 0.78), 1.67],
        [Math.max(1.38, cab_m - 0.78), 1.12],
      ],
      box: [
        [cab_m + 0.03, 0.98],
        [cab_m + 0.03, 1.9],
        [tail_m, 1.9],
        [tail_m, 0.98],
      ],
    };
  },
  cab_chassis: (s) => {
    const cab_m = Math.min(1.75, s.wheelbase_m - 1.2);
    const tail_m = tailOf(s);
    return {
      line: [...nose(s), [1.05, 1.76], [cab_m - 0.08, 1.8], [cab_m, 1.74], [cab_m, 0.95], [tail_m, 0.95]],
      glass: [
        [0.68, 1.16],
        [1.08, 1.66],
        [cab_m - 0.16, 1.68],
        [cab_m - 0.16, 1.12],
      ],
      box: [
        [cab_m + 0.08, 0.95],
        [cab_m + 0.08, 1.86],
        [tail_m, 1.86],
        [tail_m, 0.95],
      ],
    };
  },
  wagon: (s) => {
    const tail_m = tailOf(s);
    return {
      line: [
        ...nose(s),
        [1.1, 1.74],
        [1.6, 1.81],
        [tail_m - 0.25, 1.8],
        [tail_m - 0.02, 1.1],
        [tail_m, 0.72],
      ],
      glass: [
        [0.72, 1.16],
        [1.16, 1.65],
        [tail_m - 0.4, 1.68],
        [tail_m - 0.24, 1.14],
      ],
    };
  },
  van: (s) => {
    const nose_m = -s.front_overhang_m;
    const tail_m = tailOf(s);
    return {
      line: [
        [nose_m, 0.86],
        [nose_m + 0.14, 1.06],
        [nose_m + 0.6, 1.18],
        [0.34, 1.95],
        [0.7, 2.04],
        [tail_m - 0.06, 2.06],
        [tail_m, 1.9],
      ],
      glass: [
        [0.06, 1.24],
        [0.46, 1.84],
        [1.1, 1.86],
        [1.1, 1.2],
      ],
    };
  },
};

function nose(shape: Shape): Point[] {
  const front_m = -shape.front_overhang_m;
  return [
    [front_m, 0.92],
    [front_m + 0.16, 1.06],
    [0.58, 1.16],
  ];
}
