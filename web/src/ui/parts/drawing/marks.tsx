/** What stands on the beam: the scale in metres, loads as arrows, the centre of gravity, the hatched stretch. */
import type { JSX } from "preact";
import { still } from "@/ui/parts/still";
import { words } from "@/ui/text/drawing";
import { type Frame, heightOf, type Shape, type TrailerShape } from "./frame";
import type { Group, Name } from "./groups";
import { topAt } from "./outline";
import type { LaidTank } from "./tanks";
import { trailerTopAt } from "./trailer_outline";

export interface Arrow {
  readonly id: string;
  readonly x_m: number;
  readonly mass_kg: number;
  readonly label: string;
  /** On the trailer: its place counts rearwards from the coupling. */
  readonly trailer?: boolean;
  /** Not there yet: on order. */
  readonly planned?: boolean;
}

/** What is drawn, to scale, with its arrows. */
export interface Paper {
  readonly frame: Frame;
  readonly shape: Shape;
  readonly trailer: TrailerShape | null;
  readonly groups: readonly Group[];
  readonly tanks: readonly LaidTank[];
  /** What a finger may take hold of, tanks among it. */
  readonly within: readonly Group[];
  readonly names: readonly Name[];
  readonly name_lines: number;
  /** The longest arrow says so many kg. */
  readonly heaviest_kg: number;
}

const TALLEST_ARROW = 40;
export const NAME_LINE = 13;
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
        const crowded =
          clear.some((x_m) => Math.abs(x_m - metre) < near_m) || x > frame.width - TICK_TEXT / 2;
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

/** Length says mass: the square root keeps a 5 kg strap and a 200 kg canopy both visible. */
export const Arrows = still(function Arrows({ paper }: { readonly paper: Paper }): JSX.Element {
  const { groups, names } = paper;
  return (
    <g aria-hidden="true">
      {groups.map((group) => {
        const [first] = group.members;
        const many = group.members.length;
        const { x, tip, length } = arrowAt(paper, first!, group.x, group.mass_kg);
        const planned = group.members.every((one) => one.planned);
        return (
          <g key={first!.id} class={planned ? "beam-arrow beam-planned" : "beam-arrow"}>
            <path d={arrowPath(x, tip, length)} />
            {many > 1 ? (
              <text class="beam-count" x={x} y={tip - length - 3} text-anchor="middle">
                {many}
              </text>
            ) : null}
          </g>
        );
      })}
      {names.map(({ text, x, row }) => (
        <text key={text + x} class="beam-name" x={x} y={nameY(paper, row)} text-anchor="middle">
          {text}
        </text>
      ))}
    </g>
  );
});

/** Where an arrow stands, on whatever is below it: roof, bonnet, tray. */
export function arrowAt(paper: Paper, arrow: Arrow, x: number, mass_kg: number) {
  const { frame, shape, trailer, heaviest_kg } = paper;
  const x_m = frame.from_m + x / frame.units_per_m;
  const top_m = arrow.trailer && trailer ? trailerTopAt(trailer, x_m) : topAt(shape, x_m);
  const length = 6 + (TALLEST_ARROW - 6) * Math.sqrt(Math.min(1, Math.max(0, mass_kg) / heaviest_kg));
  return { x, tip: frame.z(top_m) - 2, length };
}

export function arrowPath(x: number, tip: number, length: number): string {
  return `M${round(x)} ${round(tip - length)}V${round(tip)}m-3 -5l3 5l3 -5`;
}

/** Baseline of a line of names: above the highest arrow that there can be. */
export function nameY({ frame, shape, trailer }: Paper, row: number): number {
  const top_m = Math.max(heightOf(shape), trailer ? heightOf(trailer) : 0);
  return frame.z(top_m) - TALLEST_ARROW - 17 - row * NAME_LINE;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
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
