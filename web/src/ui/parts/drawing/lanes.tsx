/** Loads on their way: each in a lane of its own above the beam, from where it is to where it would go, or off. */
import type { JSX } from "preact";
import "./lanes.css";
import type { Frame, Shape, TrailerShape } from "./frame";
import { topAt } from "./outline";
import { trailerTopAt } from "./trailer_outline";

/** A place counts from the front axle, on the trailer from the coupling. */
export interface LanePlace {
  readonly x_m: number;
  readonly trailer: boolean;
}

export interface Lane {
  readonly id: string;
  /** The number that it has in the list beside. */
  readonly label: string;
  readonly from: LanePlace;
  /** Null: off. */
  readonly to: LanePlace | null;
}

const LANE = 14;
const ARROWS = 58; // the tallest arrow, with how many it stands for
const TOP = 14;

/** The stretch above the roof that so many lanes need, with the arrows of the loads under them. */
export function lanesHeight(lanes: readonly Lane[]): number {
  return ARROWS + TOP + LANE * lanes.length;
}

export interface LanesProps {
  readonly lanes: readonly Lane[];
  readonly frame: Frame;
  readonly shape: Shape;
  readonly trailer: TrailerShape | null;
}

export function Lanes({ lanes, frame, shape, trailer }: LanesProps): JSX.Element {
  const at_m = ({ x_m, trailer: on }: LanePlace) => x_m + (on && trailer ? trailer.coupling_x_m : 0);
  const x = (place: LanePlace) => frame.x(at_m(place));
  const roof = (place: LanePlace) =>
    frame.z(place.trailer && trailer ? trailerTopAt(trailer, at_m(place)) : topAt(shape, at_m(place))) - 2;
  return (
    <g aria-hidden="true">
      {lanes.map(({ id, label, from, to }, n) => {
        const y = TOP + LANE * n;
        const start = `M${x(from)} ${roof(from) - 8}V${y}`;
        const way = to ? `H${x(to)}V${roof(to)}m-4 -7l4 7l4 -7` : "m-4 7l4 -7l4 7";
        const right = to !== null && x(to) < x(from);
        return (
          <g key={id} class="lane">
            <path d={start + way} />
            <circle cx={x(from)} cy={roof(from) - 8} r={2.5} />
            <text x={x(from) + (right ? 5 : -5)} y={y + 4} text-anchor={right ? "start" : "end"}>
              {label}
            </text>
          </g>
        );
      })}
    </g>
  );
}
