/** Supports of the beam: axles with their reactions as figures beneath, and the coupling between two beams. */
import type { JSX } from "preact";
import type { Frame, TrailerShape } from "./frame";
import { type Placed, placeLabels, type Span, touchSpans } from "./labels";

export interface Support {
  readonly id: string;
  readonly x_m: number;
  /** The reaction under the support, already in words: "1 340", "1 338 ± 12", "?". */
  readonly figure: string;
  readonly label: string;
  readonly on_deck?: boolean;
  /** Half of the stretch of deck that its wheels need. */
  readonly reach_m?: number;
  /** Of the trailer: its place counts rearwards from the coupling. */
  readonly trailer?: boolean;
}

export const COUPLING = "coupling";
const FIGURE_ABOVE = 44;
const ROW = 24;
const CHARACTER = 10.6; // width of one figure of the drawing's face at 17 units, with a little to spare

export interface Laid {
  readonly support: Support;
  readonly x: number;
  readonly figure: Placed;
  readonly touch: Span | null;
}

/** Supports from left to right with a place for each figure and for each finger. */
export function layOut(supports: readonly Support[], frame: Frame, trailer: TrailerShape | null): Laid[] {
  const sorted = supports
    .map((support) => ({ support, x: frame.x(placeOf(support, trailer)) }))
    .sort((a, b) => a.x - b.x);
  const labels = sorted.map(({ support, x }) => ({ x, width: support.figure.length * CHARACTER }));
  const figures = placeLabels(labels, frame.width);
  const axles = sorted.filter(({ support }) => support.id !== COUPLING);
  const spans = touchSpans(
    axles.map(({ x }) => x),
    frame.width,
  );
  return sorted.map((one, k) => {
    const axle = axles.indexOf(one);
    return { ...one, figure: figures[k]!, touch: spans[axle] ?? null };
  });
}

/** In metres behind the front axle. */
export function placeOf(
  { x_m, trailer: on }: Pick<Support, "x_m" | "trailer">,
  trailer: TrailerShape | null,
): number {
  return on && trailer ? trailer.coupling_x_m + x_m : x_m;
}

/** How far the figures reach below the ground line. */
export function depthOf(laid: readonly Laid[]): number {
  return FIGURE_ABOVE + 12 + ROW * Math.max(0, ...laid.map((one) => one.figure.row));
}

interface MarkProps {
  readonly laid: Laid;
  readonly frame: Frame;
  readonly depth: number;
  readonly onTouch: ((id: string) => void) | undefined;
}

export function SupportMark({ laid, frame, depth, onTouch }: MarkProps): JSX.Element {
  const { support, x, figure } = laid;
  const y = frame.ground;
  const base = y + FIGURE_ABOVE + figure.row * ROW;
  const half = (support.reach_m ?? 0.52) * frame.units_per_m;
  const touch = onTouch && laid.touch ? () => onTouch(support.id) : undefined;
  return (
    <g>
      {support.on_deck ? <rect class="beam-deck" x={x - half} y={y - 5} width={2 * half} height={6} /> : null}
      {support.id === COUPLING ? (
        <path class="beam-hinge" d={`M${x} ${frame.z(0.36)}V${y + 6}`} />
      ) : (
        <path class="beam-support" d={`M${x} ${y + 1}l8 14h-16Z`} />
      )}
      {figure.row > 0 ? <path class="beam-leader" d={`M${x} ${y + 17}V${base - 15}`} /> : null}
      <text class="beam-figure" x={figure.x} y={base} text-anchor="middle">
        {support.figure}
      </text>
      {touch ? <Target laid={laid} y={y} depth={depth} touch={touch} /> : null}
    </g>
  );
}

interface TargetProps {
  readonly laid: Laid;
  readonly y: number;
  readonly depth: number;
  readonly touch: () => void;
}

function Target({ laid, y, depth, touch }: TargetProps): JSX.Element {
  const { support, touch: span } = laid;
  return (
    <g
      class="beam-touch"
      role="button"
      tabindex={0}
      aria-pressed={support.on_deck === true}
      aria-label={support.label}
      onClick={touch}
      onKeyDown={(event) => {
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        touch();
      }}
    >
      <rect x={span!.from} y={y - 84} width={span!.to - span!.from} height={84 + depth} />
    </g>
  );
}
