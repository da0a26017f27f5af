/**
 * The vehicle as a loaded beam: outline to scale, a scale in metres, axles as supports with figures under them,
 * loads as arrows, and a hatched stretch where unplanned mass can sit. The same drawing serves every screen.
 */
import type { JSX } from "preact";
import { words } from "@/ui/text/drawing";
import "./drawing.css";
import { type BodyFacts, type Frame, frameFor, heightOf, type Shape, shapeOf } from "./frame";
import { outlineOf } from "./outline";

export interface Support {
  readonly id: string;
  readonly x_m: number;
  /** The reaction under the support, already in words: "1 340", "1 338 ± 12", "?". */
  readonly figure: string;
  readonly label: string;
  readonly on_deck?: boolean;
}

export interface Arrow {
  readonly id: string;
  readonly x_m: number;
  readonly mass_kg: number;
  readonly label: string;
  readonly roof?: boolean;
}

export interface BeamProps {
  readonly body: BodyFacts;
  readonly title: string;
  readonly supports?: readonly Support[];
  readonly arrows?: readonly Arrow[];
  readonly zone?: { readonly from_m: number; readonly to_m: number } | null;
  readonly cg_x_m?: number | null;
  readonly picked?: string | null;
  readonly onSupport?: (id: string) => void;
}

const WIDTH = 360;
const ABOVE = 46;
const BELOW = 74;
const TALLEST_ARROW = 40;

export function Beam(props: BeamProps): JSX.Element {
  const shape = shapeOf(props.body);
  const arrows = props.arrows ?? [];
  const frame = frameFor(
    shape,
    WIDTH,
    arrows.length > 0 ? ABOVE : 10,
    arrows.map((arrow) => arrow.x_m),
  );
  return (
    <svg
      class="beam"
      viewBox={`0 0 ${WIDTH} ${Math.ceil(frame.ground + BELOW)}`}
      role="group"
      aria-label={props.title}
    >
      {props.zone ? <Zone zone={props.zone} frame={frame} shape={shape} /> : null}
      <Body shape={shape} frame={frame} />
      <Scale frame={frame} clear={(props.supports ?? []).map((support) => support.x_m)} />
      <Arrows arrows={arrows} frame={frame} shape={shape} picked={props.picked ?? null} />
      {typeof props.cg_x_m === "number" ? <Centre frame={frame} x_m={props.cg_x_m} /> : null}
      {(props.supports ?? []).map((support) => (
        <SupportMark key={support.id} support={support} frame={frame} onTouch={props.onSupport} />
      ))}
    </svg>
  );
}

function Body({ shape, frame }: { shape: Shape; frame: Frame }): JSX.Element {
  const outline = outlineOf(shape, frame);
  return (
    <g aria-hidden="true">
      <path class="beam-glass" d={outline.glass} />
      {outline.box ? <path class="beam-line" d={outline.box} /> : null}
      <path class="beam-line beam-body" d={outline.body} />
      {outline.wheels.map((wheel) => (
        <circle key={wheel.x} class="beam-line beam-wheel" cx={wheel.x} cy={wheel.y} r={wheel.r} />
      ))}
    </g>
  );
}

/** A figure on each metre, but where a support already stands. */
function Scale({ frame, clear }: { frame: Frame; clear: readonly number[] }): JSX.Element {
  const ticks: number[] = [];
  for (let metre = Math.max(1, Math.ceil(frame.from_m)); metre < frame.to_m - 0.1; metre += 1)
    ticks.push(metre);
  return (
    <g aria-hidden="true">
      <line class="beam-line" x1={0} x2={WIDTH} y1={frame.ground} y2={frame.ground} />
      {ticks.map((metre) => (
        <g key={metre}>
          <line
            class="beam-line"
            x1={frame.x(metre)}
            x2={frame.x(metre)}
            y1={frame.ground}
            y2={frame.ground + 5}
          />
          {clear.some((x_m) => Math.abs(x_m - metre) < 0.38) ? null : (
            <text class="beam-tick" x={frame.x(metre)} y={frame.ground + 17} text-anchor="middle">
              {words.metres(metre)}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

interface SupportMarkProps {
  readonly support: Support;
  readonly frame: Frame;
  readonly onTouch: ((id: string) => void) | undefined;
}

function SupportMark({ support, frame, onTouch }: SupportMarkProps): JSX.Element {
  const x = frame.x(support.x_m);
  const y = frame.ground;
  const half = 0.52 * frame.units_per_m;
  const touch = onTouch ? () => onTouch(support.id) : undefined;
  return (
    <g>
      {support.on_deck ? <rect class="beam-deck" x={x - half} y={y - 5} width={2 * half} height={6} /> : null}
      <path class="beam-support" d={`M${x} ${y + 1}l8 14h-16Z`} />
      <text class="beam-figure" x={x} y={y + 44} text-anchor="middle">
        {support.figure}
      </text>
      {touch ? (
        <g
          class="beam-touch"
          role="button"
          tabIndex={0}
          aria-pressed={support.on_deck === true}
          aria-label={support.label}
          onClick={touch}
          onKeyDown={(event) => {
            if (event.key !== "Enter" && event.key !== " ") return;
            event.preventDefault();
            touch();
          }}
        >
          <rect x={x - 48} y={y - 84} width={96} height={140} />
        </g>
      ) : null}
    </g>
  );
}

interface ArrowsProps {
  readonly arrows: readonly Arrow[];
  readonly frame: Frame;
  readonly shape: Shape;
  readonly picked: string | null;
}

/** Length says mass: the square root keeps a 5 kg strap and a 200 kg canopy both visible. */
function Arrows({ arrows, frame, shape, picked }: ArrowsProps): JSX.Element {
  const heaviest = Math.max(1, ...arrows.map((arrow) => arrow.mass_kg));
  const tip = frame.z(heightOf(shape)) - 2;
  return (
    <g aria-hidden="true">
      {arrows.map((arrow) => {
        const length = 6 + (TALLEST_ARROW - 6) * Math.sqrt(Math.max(0, arrow.mass_kg) / heaviest);
        const x = frame.x(arrow.x_m);
        return (
          <g key={arrow.id} class={arrow.id === picked ? "beam-arrow beam-arrow-picked" : "beam-arrow"}>
            <path d={`M${x} ${tip - length}V${tip}m-3 -5l3 5l3 -5`} />
          </g>
        );
      })}
    </g>
  );
}

function Centre({ frame, x_m }: { frame: Frame; x_m: number }): JSX.Element {
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

function Zone({ zone, frame, shape }: ZoneProps): JSX.Element {
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
