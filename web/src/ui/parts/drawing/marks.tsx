/** What stands on the beam: the scale in metres, loads as arrows, the centre of gravity, the hatched stretch. */
import type { JSX } from "preact";
import { words } from "@/ui/text/drawing";
import { type Frame, heightOf, type Shape, type TrailerShape } from "./frame";

export interface Arrow {
  readonly id: string;
  readonly x_m: number;
  readonly mass_kg: number;
  readonly label: string;
  readonly roof?: boolean;
  /** On the trailer: its place counts rearwards from the coupling. */
  readonly trailer?: boolean;
}

const TALLEST_ARROW = 40;
const TICK_TEXT = 34;

/** A figure on each metre, or on every second or fifth where they would touch, but not where a support stands. */
export function Scale({ frame, clear }: { frame: Frame; clear: readonly number[] }): JSX.Element {
  const ticks: number[] = [];
  for (let metre = Math.max(1, Math.ceil(frame.from_m)); metre < frame.to_m - 0.1; metre += 1)
    ticks.push(metre);
  const step = [1, 2, 5].find((one) => one * frame.units_per_m >= TICK_TEXT) ?? 10;
  const near_m = Math.max(0.38, 25 / frame.units_per_m);
  return (
    <g aria-hidden="true">
      <line class="beam-line" x1={0} x2={frame.width} y1={frame.ground} y2={frame.ground} />
      {ticks.map((metre) => {
        const x = frame.x(metre);
        const crowded = clear.some((x_m) => Math.abs(x_m - metre) < near_m);
        return (
          <g key={metre}>
            <line class="beam-line" x1={x} x2={x} y1={frame.ground} y2={frame.ground + 5} />
            {crowded || metre % step !== 0 ? null : (
              <text class="beam-tick" x={x} y={frame.ground + 17} text-anchor="middle">
                {words.metres(metre)}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

interface ArrowsProps {
  readonly arrows: readonly Arrow[];
  readonly frame: Frame;
  readonly shape: Shape;
  readonly trailer: TrailerShape | null;
  readonly picked: string | null;
}

/** Length says mass: the square root keeps a 5 kg strap and a 200 kg canopy both visible. */
export function Arrows({ arrows, frame, shape, trailer, picked }: ArrowsProps): JSX.Element {
  const heaviest = Math.max(1, ...arrows.map((arrow) => arrow.mass_kg));
  return (
    <g aria-hidden="true">
      {arrows.map((arrow) => {
        const length = 6 + (TALLEST_ARROW - 6) * Math.sqrt(Math.max(0, arrow.mass_kg) / heaviest);
        const on = arrow.trailer ? trailer : null;
        const x = frame.x(arrow.x_m + (on?.coupling_x_m ?? 0));
        const tip = frame.z(heightOf(on ?? shape)) - 2;
        return (
          <g key={arrow.id} class={arrow.id === picked ? "beam-arrow beam-arrow-picked" : "beam-arrow"}>
            <path d={`M${x} ${tip - length}V${tip}m-3 -5l3 5l3 -5`} />
          </g>
        );
      })}
    </g>
  );
}

export function Centre({ frame, x_m }: { frame: Frame; x_m: number }): JSX.Element {
  const x = frame.x(x_m);
  return (
    <g class="beam-centre">
      <title>{words.centre(x_m)}</title>
      <circle cx={x} cy={frame.ground - 0.62 * frame.units_per_m} r={6} />
      <path
        d={`M${x - 9} ${frame.ground - 0.62 * frame.units_per_m}h18M${x} ${frame.ground - 0.62 * frame.units_per_m - 9}v18`}
      />
    </g>
  );
}

interface ZoneProps {
  readonly zone: { readonly from_m: number; readonly to_m: number };
  readonly frame: Frame;
  readonly shape: Shape;
}

export function Zone({ zone, frame, shape }: ZoneProps): JSX.Element {
  const left = frame.x(Math.max(frame.from_m, zone.from_m));
  const right = frame.x(Math.min(frame.to_m, zone.to_m));
  const top = frame.z(heightOf(shape));
  return (
    <g>
      <defs>
        <pattern
          id="beam-hatch"
          width="7"
          height="7"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line class="beam-hatch" x1="0" x2="0" y1="0" y2="7" />
        </pattern>
      </defs>
      <rect
        class="beam-zone"
        x={left}
        y={top}
        width={Math.max(2, right - left)}
        height={frame.ground - top}
        fill="url(#beam-hatch)"
      >
        <title>{words.zone(zone.from_m, zone.to_m)}</title>
      </rect>
      <rect
        class="beam-zone-foot"
        x={left}
        y={frame.ground - 7}
        width={Math.max(2, right - left)}
        height={7}
        fill="url(#beam-hatch)"
      />
    </g>
  );
}
