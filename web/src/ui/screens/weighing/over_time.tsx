/**
 * One load over time: per weighing the plan of its day (hatched) and what was weighed (notch with whisker), and in
 * steps what was known of the full vehicle, with its band.
 */
import type { JSX } from "preact";
import type { Taught } from "@/services/weighed";
import { figure, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/weighed";
import { Frame, type Point } from "./over_time_frame";
import "./weighed.css";

interface Props {
  readonly row: string;
  readonly lessons: readonly Taught[];
  /** The weighing whose page this is. */
  readonly here: string;
  /** The days of the weighings. */
  readonly dates: readonly string[];
}

const HALF = 7; // half width of a weighing's hatched plan

export function OverTime({ row, lessons, here, dates }: Props): JSX.Element {
  const points = pointsOf(row, lessons);
  const frame = new Frame(points);
  const first = points[0]!;
  const last = points.at(-1)!;
  const stage = (kg: number, u: number) => withReach(kg, twoSided(u));
  const title = words.pictured(
    row,
    points.length,
    stage(first.before_kg, first.before_u_kg),
    stage(last.after_kg, last.after_u_kg),
  );
  return (
    <figure class="over-time">
      <figcaption>{words.picture(row)}</figcaption>
      <svg viewBox={`0 0 ${frame.width} ${frame.height}`} role="img" aria-label={title}>
        <Scale frame={frame} />
        <Known frame={frame} points={points} />
        {points.map((one, i) => (
          <Weighed key={one.id} frame={frame} point={one} x={frame.xs[i]!} here={one.id === here} />
        ))}
        <Dates frame={frame} points={points} dates={dates} />
      </svg>
    </figure>
  );
}

function pointsOf(row: string, lessons: readonly Taught[]): Point[] {
  return lessons.map(({ weighing_id, at, rows }) => ({
    id: weighing_id,
    at,
    ...rows.find((one) => one.row === row)!,
  }));
}

/** Drawn once, in the key; every picture of the page refers to it. */
function Hatch(): JSX.Element {
  return (
    <defs>
      <pattern
        id="plan-hatch"
        width="4"
        height="4"
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <line class="time-hatch" x1="0" x2="0" y1="0" y2="4" />
      </pattern>
    </defs>
  );
}

function Scale({ frame }: { readonly frame: Frame }): JSX.Element {
  return (
    <g>
      {frame.ticks.map((kg) => (
        <g key={kg}>
          <line class="time-rule" x1={frame.left} x2={frame.right} y1={frame.y(kg)} y2={frame.y(kg)} />
          <text class="time-text" x={frame.left - 6} y={frame.y(kg) + 4} text-anchor="end">
            {figure(kg)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** A step at each weighing: between two of them nothing is learnt. */
function Known({ frame, points }: { readonly frame: Frame; readonly points: readonly Point[] }): JSX.Element {
  const steps = frame.steps(points);
  const path = (sign: number) =>
    steps
      .map(({ x, kg, u_kg }, i) => `${i === 0 ? "M" : "L"}${x} ${frame.y(kg + sign * twoSided(u_kg))}`)
      .join("");
  const back = [...steps].reverse().map(({ x, kg, u_kg }) => `L${x} ${frame.y(kg - twoSided(u_kg))}`);
  return (
    <g>
      <path class="time-band" d={`${path(1)}${back.join("")}Z`} />
      <path class="time-edge" d={path(1)} />
      <path class="time-edge" d={path(-1)} />
      <path class="time-known" d={path(0)} />
    </g>
  );
}

interface WeighedProps {
  readonly frame: Frame;
  readonly point: Point;
  readonly x: number;
  readonly here: boolean;
}

function Weighed({ frame, point, x, here }: WeighedProps): JSX.Element {
  const { planned_kg, planned_u_kg, weighed_kg, weighed_u_kg } = point;
  const [top, bottom] = [1, -1].map((sign) => frame.y(planned_kg + sign * twoSided(planned_u_kg)));
  return (
    <g>
      <rect
        class="time-plan"
        x={x - HALF}
        y={top}
        width={2 * HALF}
        height={Math.max(2, bottom! - top!)}
        fill="url(#plan-hatch)"
      />
      {weighed_kg !== null && weighed_u_kg !== null ? (
        <g class="time-weighed">
          <line
            x1={x}
            x2={x}
            y1={frame.y(weighed_kg + twoSided(weighed_u_kg))}
            y2={frame.y(weighed_kg - twoSided(weighed_u_kg))}
          />
          <line class="time-notch" x1={x - 6} x2={x + 6} y1={frame.y(weighed_kg)} y2={frame.y(weighed_kg)} />
        </g>
      ) : null}
      {here ? (
        <path
          class="time-here"
          d={`M${x - 5} ${frame.floor + 8}L${x} ${frame.floor + 1}L${x + 5} ${frame.floor + 8}Z`}
        >
          <title>{words.this}</title>
        </path>
      ) : null}
    </g>
  );
}

function Dates(props: {
  readonly frame: Frame;
  readonly points: readonly Point[];
  readonly dates: readonly string[];
}): JSX.Element {
  const { frame, points, dates } = props;
  const ends = points.length > 1 ? [0, points.length - 1] : [0];
  return (
    <g>
      <line class="time-axis" x1={frame.left} x2={frame.right} y1={frame.floor} y2={frame.floor} />
      {points.map((one, i) => (
        <line
          key={one.id}
          class="time-axis"
          x1={frame.xs[i]}
          x2={frame.xs[i]}
          y1={frame.floor - 4}
          y2={frame.floor}
        />
      ))}
      {ends.map((i) => (
        <text
          key={points[i]!.id}
          class="time-text"
          x={frame.xs[i]}
          y={frame.floor + 22}
          text-anchor={ends.length > 1 && i > 0 ? "end" : "start"}
          dx={i > 0 ? HALF : -HALF}
        >
          {dates[i]}
        </text>
      ))}
    </g>
  );
}

/** What the marks mean, drawn as they are. */
export function Key(): JSX.Element {
  return (
    <ul class="time-key">
      <li>
        <svg viewBox="0 0 22 18" aria-hidden="true">
          <Hatch />
          <rect class="time-plan" x="4" y="2" width="14" height="14" fill="url(#plan-hatch)" />
        </svg>
        {words.keyPlan}
      </li>
      <li>
        <svg viewBox="0 0 22 18" aria-hidden="true">
          <g class="time-weighed">
            <line x1="11" x2="11" y1="1" y2="17" />
            <line class="time-notch" x1="5" x2="17" y1="9" y2="9" />
          </g>
        </svg>
        {words.keyWeighed}
      </li>
      <li>
        <svg viewBox="0 0 22 18" aria-hidden="true">
          <path class="time-band" d="M1 3H21V15H1Z" />
          <path class="time-edge" d="M1 3H21M1 15H21" />
          <path class="time-known" d="M1 9H21" />
        </svg>
        {words.keyFull}
      </li>
    </ul>
  );
}
