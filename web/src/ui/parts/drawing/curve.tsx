/**
 * A mass as a function of place, drawn above the beam: one line style for each limit that binds, its name beside it,
 * and the place that is touched. It reads without colour.
 */
import type { JSX, TargetedPointerEvent } from "preact";
import { words } from "@/ui/text/drawing";
import "./curve.css";
import type { Frame } from "./frame";

export interface CurvePiece {
  /** What binds there: it has one line style. */
  readonly key: string;
  readonly label: string;
  /** Metres behind the front axle; null where no known limit binds. */
  readonly points: readonly { readonly x_m: number; readonly kg: number | null }[];
}

export interface CurveProps {
  readonly frame: Frame;
  readonly height: number;
  readonly pieces: readonly CurvePiece[];
  readonly picked: { readonly x_m: number; readonly kg: number | null; readonly told: string };
  readonly title: string;
  readonly onPick: (x_m: number) => void;
}

export const CURVE_HEIGHT = 160;
const TOP = 42;
const FOOT = 9;
const FEWEST = 5; // kg on the scale even where next to nothing is left
const STEEP = 4; // a curve that rises without end is cut at so many times its middle
const LABEL = 6.7; // width of a character of the label
const ROW = 14;
const HIGHEST = TOP - ROW + 6;
const TICKS = 40; // what the figures of the scale take at its left end

/** A dash pattern for each limit; two limits of one axle differ too. */
const STYLES: Readonly<Record<string, string>> = {
  gross: "2 3",
  front: "",
  rear: "10 4",
  combination: "10 3 2 3",
  trailer: "5 3",
  trailer_axles: "14 3 4 3",
  coupling: "4 2 1 2",
  roof: "1 4",
};

export function styleOf(key: string): string {
  return STYLES[key] ?? "16 5";
}

export function Curve(props: CurveProps): JSX.Element {
  const { frame, height, pieces, picked } = props;
  const scale = scaleOf(pieces);
  const base = height - FOOT;
  const y = (kg: number) => base - (Math.min(kg, scale.top) / scale.top) * (base - TOP);
  return (
    <g>
      <g aria-hidden="true">
        {scale.lines.map((kg) => (
          <g key={kg}>
            <line class="curve-grid" x1={0} x2={frame.width} y1={y(kg)} y2={y(kg)} />
            <text class="beam-tick" x={2} y={y(kg) - 3}>
              {words.kg(kg)}
            </text>
          </g>
        ))}
        {pieces.map((piece) => (
          <path
            key={`${piece.key} ${piece.points[0]!.x_m}`}
            class={piece.points.some((one) => one.kg) ? "curve-line" : "curve-line curve-none"}
            stroke-dasharray={styleOf(piece.key)}
            d={pathOf(piece, frame, y, scale.top)}
          />
        ))}
        {labelsOf(pieces, frame, y).map(({ piece, x, y: at }) => (
          <text key={`${piece.key} ${x}`} class="curve-label" x={x} y={at} text-anchor="middle">
            {piece.label}
          </text>
        ))}
        <Picked picked={picked} frame={frame} y={y} />
      </g>
      <Touch {...props} />
    </g>
  );
}

interface PickedProps extends Pick<CurveProps, "picked" | "frame"> {
  readonly y: (kg: number) => number;
}

function Picked({ picked, frame, y }: PickedProps): JSX.Element {
  const x = frame.x(picked.x_m);
  const half = (picked.told.length * LABEL * 1.5) / 2;
  return (
    <g class="curve-picked">
      <path d={`M${x} 20V${frame.ground}`} />
      {picked.kg === null ? null : <circle cx={x} cy={y(picked.kg)} r={5} />}
      <text x={Math.min(Math.max(x, half), frame.width - half)} y={15} text-anchor="middle">
        {picked.told}
      </text>
    </g>
  );
}

/** Touch, drag, or the keys of a slider. */
function Touch({ frame, picked, title, onPick }: CurveProps): JSX.Element {
  const pick = (x_m: number) => onPick(Math.min(Math.max(x_m, frame.from_m), frame.to_m));
  const from = (event: TargetedPointerEvent<SVGRectElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    pick(frame.from_m + ((event.clientX - box.left) / box.width) * (frame.to_m - frame.from_m));
  };
  return (
    <rect
      class="curve-touch"
      x={0}
      y={0}
      width={frame.width}
      height={frame.ground}
      role="slider"
      tabindex={0}
      aria-label={title}
      aria-valuemin={round(frame.from_m)}
      aria-valuemax={round(frame.to_m)}
      aria-valuenow={round(picked.x_m)}
      aria-valuetext={`${round(picked.x_m)} m: ${picked.told}`}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        from(event);
      }}
      onPointerMove={(event) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId)) from(event);
      }}
      onKeyDown={(event) => {
        const step = STEPS[event.key];
        if (step === undefined) return;
        event.preventDefault();
        pick(round(picked.x_m + step));
      }}
    />
  );
}

const STEPS: Readonly<Record<string, number>> = {
  ArrowLeft: -0.05,
  ArrowDown: -0.05,
  ArrowRight: 0.05,
  ArrowUp: 0.05,
  PageDown: -0.5,
  PageUp: 0.5,
  Home: -100,
  End: 100,
};

function round(metres: number): number {
  return Math.round(metres * 100) / 100;
}

interface Scale {
  readonly top: number;
  readonly lines: readonly number[];
}

/** Up to the greatest room, but not after a curve that rises without end. */
export function scaleOf(pieces: readonly CurvePiece[]): Scale {
  const kgs = pieces.flatMap((piece) => piece.points.flatMap(({ kg }) => kg || [])).sort((a, b) => a - b);
  const middle = kgs[Math.floor(kgs.length / 2)] ?? 0;
  const wanted = Math.max(FEWEST, Math.min(kgs.at(-1) ?? 0, Math.max(STEEP * middle, FEWEST)));
  const power = 10 ** Math.floor(Math.log10(wanted / 2));
  const step = [1, 2, 5, 10].map((one) => one * power).find((one) => wanted / one <= 4)!;
  const count = Math.max(1, Math.floor(wanted / step + 1e-9));
  return { top: wanted * 1.04, lines: Array.from({ length: count }, (_, k) => (k + 1) * step) };
}

function pathOf(piece: CurvePiece, frame: Frame, y: (kg: number) => number, top: number): string {
  let pen = "M";
  return piece.points
    .map(({ x_m, kg }) => {
      if (kg === null || kg > top) {
        pen = "M";
        return "";
      }
      const step = `${pen}${frame.x(x_m).toFixed(1)} ${y(kg).toFixed(1)}`;
      pen = "L";
      return step;
    })
    .join("");
}

interface Placed {
  readonly piece: CurvePiece;
  readonly x: number;
  readonly y: number;
}

/** Each name above its stretch; one that finds no room is left to the list below the drawing. */
function labelsOf(pieces: readonly CurvePiece[], frame: Frame, y: (kg: number) => number): Placed[] {
  const out: (Placed & { readonly half: number })[] = [];
  for (const piece of pieces) {
    const half = (piece.label.length * LABEL) / 2;
    const middle = piece.points[Math.floor(piece.points.length / 2)]!;
    const x = Math.min(Math.max(frame.x(middle.x_m), half + TICKS), frame.width - half - 2);
    const near = [middle, ...piece.points.filter((one) => Math.abs(frame.x(one.x_m) - x) <= half)];
    const ys = near.map(({ kg }) => y(kg ?? 0));
    const above = Math.max(HIGHEST, Math.min(...ys) - 5);
    const below = Math.max(...ys) + ROW;
    const free = (row: number) =>
      out.every((one) => Math.abs(one.x - x) > one.half + half + 4 || Math.abs(one.y - row) >= ROW);
    const row = [above, above - ROW, below].find((one) => one >= HIGHEST - 2 && free(one));
    if (row !== undefined) out.push({ piece, x, y: row, half });
  }
  return out;
}
