/**
 * What changes along the way as a band over distance: the likely line, its edge, a line that it must not pass, and the
 * supplies as posts, solid where they are certain, open where they are not. Fuel, water and loads share it.
 */
import type { JSX } from "preact";
import { useWide } from "@/ui/parts/wide";
import "./bands.css";
import "./drawing.css";
import { touchSpans } from "./labels";

export interface BandPoint {
  readonly at_km: number;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

export interface Post {
  readonly at_km: number;
  readonly name: string;
  readonly kind: "certain" | "uncertain" | "struck";
  /** Read out, and what a touch does. */
  readonly told: string;
}

export interface BandMark {
  readonly at_km: number;
  readonly label: string;
  /** A place to mind, or one that is only told of. */
  readonly quiet?: boolean;
}

export interface BandsProps {
  readonly title: string;
  readonly from_km: number;
  readonly to_km: number;
  readonly points: readonly BandPoint[];
  /** The edge that counts: what there is at least, or at most. */
  readonly edge: "low" | "high";
  /** Values are not drawn below this; null lets the scale begin where the band does. */
  readonly least: number | null;
  readonly floor: { readonly value: number; readonly label: string } | null;
  readonly posts?: readonly Post[];
  readonly marks?: readonly BandMark[];
  readonly figure: (value: number) => string;
  readonly km: (value: number) => string;
  readonly onPost?: (index: number) => void;
}

const [NARROW, WIDE] = [360, 640];
const [TOP, PLOT, LEFT, RIGHT] = [46, 150, 6, 10];
const BASE = TOP + PLOT;
const [TICK, ROW] = [16, 17];
const HEADS = 28;
const LETTER = 7.2;
const LONGEST = 20;

export function Bands(props: BandsProps): JSX.Element {
  const width = useWide(60) ? WIDE : NARROW;
  const { from_km, to_km, posts = [], marks = [], floor, points } = props;
  const x = (km: number) =>
    LEFT + ((km - from_km) / Math.max(to_km - from_km, 1e-6)) * (width - LEFT - RIGHT);
  const scale = scaleOf(props);
  const y = (value: number) =>
    BASE - ((Math.min(Math.max(value, scale.low), scale.top) - scale.low) / (scale.top - scale.low)) * PLOT;
  const rows = namesIn(posts, x, width);
  const height = BASE + TICK + 8 + ROW * Math.max(0, ...rows.map((row) => (row ?? -1) + 1));
  const line = (of: (point: BandPoint) => number, some = points) =>
    some.map((point) => `${x(point.at_km).toFixed(1)} ${y(of(point)).toFixed(1)}`).join("L");
  const back = [...points].reverse();
  return (
    <svg class="beam bands" viewBox={`0 0 ${width} ${height}`} role="group" aria-label={props.title}>
      <g aria-hidden="true">
        {scale.lines.map((value) => (
          <g key={value}>
            <line class="line-axis" x1={0} x2={width} y1={y(value)} y2={y(value)} />
            {isClear(y(value), floor && y(floor.value)) ? (
              <text class="beam-tick" x={width} y={y(value) - 3} text-anchor="end">
                {props.figure(value)}
              </text>
            ) : null}
          </g>
        ))}
        <path class="bands-area" d={`M${line((one) => one.high)}L${line((one) => one.low, back)}Z`} />
        <path class="bands-edge" d={`M${line((one) => one[props.edge])}`} />
        <path class="bands-line" d={`M${line((one) => one.middle)}`} />
        {floor ? (
          <>
            <line class="bands-floor" x1={0} x2={width} y1={y(floor.value)} y2={y(floor.value)} />
            <text class="bands-told" x={LEFT + 18} y={y(floor.value) - 5}>
              {floor.label}
            </text>
          </>
        ) : null}
        <line class="beam-line" x1={0} x2={width} y1={BASE} y2={BASE} />
        {ticksOf(from_km, to_km).map((km) => (
          <text key={km} class="beam-tick" x={x(km)} y={BASE + 13} text-anchor={anchorOf(x(km), width)}>
            {props.km(km)}
          </text>
        ))}
        {marks.map((mark, n) => (
          <Told key={mark.label} mark={mark} at={x(mark.at_km)} row={n} width={width} />
        ))}
      </g>
      <Posts {...{ posts, rows, width, height, x }} onPost={props.onPost} />
    </svg>
  );
}

/** Whether a figure of the scale has room: above the heads of the posts, and not on the line not to be passed. */
function isClear(y: number, floor_y: number | null): boolean {
  return y < BASE - HEADS && (floor_y === null || floor_y > y + 3 || floor_y < y - 14);
}

interface ToldProps {
  readonly mark: BandMark;
  readonly at: number;
  readonly row: number;
  readonly width: number;
}

function Told({ mark, at, row, width }: ToldProps): JSX.Element {
  const half = (mark.label.length * LETTER) / 2;
  const quiet = mark.quiet ? " bands-way" : "";
  const y = 12 + row * ROW;
  return (
    <>
      <line class={`bands-mark${quiet}`} x1={at} x2={at} y1={y + 4} y2={BASE} />
      <text
        class={`bands-told${quiet}`}
        x={Math.min(Math.max(at, half), width - half)}
        y={y}
        text-anchor="middle"
      >
        {mark.label}
      </text>
    </>
  );
}

interface PostsProps {
  readonly posts: readonly Post[];
  readonly rows: readonly (number | null)[];
  readonly width: number;
  readonly height: number;
  readonly x: (km: number) => number;
  readonly onPost: BandsProps["onPost"];
}

const CLASS = { certain: "", uncertain: " bands-open", struck: " bands-struck" };

function Posts({ posts, rows, width, height, x, onPost }: PostsProps): JSX.Element {
  const xs = posts.map((post) => x(post.at_km));
  const spans = touchSpans(xs, width);
  return (
    <>
      {posts.map((post, n) => {
        const at = Math.min(Math.max(xs[n]!, 8), width - 8);
        const span = spans[n]!;
        const row = rows[n] ?? null;
        return (
          <g
            key={`${post.at_km} ${post.name}`}
            class={`beam-touch${CLASS[post.kind]}`}
            role={onPost ? "button" : "img"}
            aria-label={post.told}
            {...(onPost ? touchable(() => onPost(n), post.kind === "struck") : {})}
          >
            <rect
              x={span.from}
              y={BASE - 44}
              width={Math.max(span.to - span.from, 1)}
              height={height - BASE + 44}
            />
            <path class="bands-post" d={`M${at} ${BASE}V${BASE - 16}`} />
            <circle class="bands-post" cx={at} cy={BASE - 22} r={6} />
            {post.kind === "struck" ? <path class="bands-post" d={`M${at - 9} ${BASE - 13}l18 -18`} /> : null}
            {row === null ? null : (
              <text
                class="bands-name"
                x={middleOf(post, xs[n]!, width)}
                y={BASE + TICK + ROW * (row + 1) - 3}
                text-anchor="middle"
              >
                {shortened(post.name)}
              </text>
            )}
          </g>
        );
      })}
    </>
  );
}

function touchable(touch: () => void, pressed: boolean) {
  return {
    tabindex: 0,
    "aria-pressed": pressed,
    onClick: touch,
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      touch();
    },
  };
}

function shortened(name: string): string {
  return name.length > LONGEST ? `${name.slice(0, LONGEST - 1)}…` : name;
}

function middleOf({ name }: Post, at: number, width: number): number {
  const half = (shortened(name).length * LETTER) / 2;
  return Math.min(Math.max(at, half), width - half);
}

/** Each name in the first of three rows where it has room; one that finds none is left to the list below. */
function namesIn(posts: readonly Post[], x: (km: number) => number, width: number): (number | null)[] {
  const ends: number[] = [];
  return posts.map((post) => {
    const [at, half] = [middleOf(post, x(post.at_km), width), (shortened(post.name).length * LETTER) / 2];
    const row = [0, 1, 2].find((one) => (ends[one] ?? 0) <= at - half);
    if (row === undefined) return null;
    ends[row] = at + half + 8;
    return row;
  });
}

interface Scale {
  readonly low: number;
  readonly top: number;
  readonly lines: readonly number[];
}

/** Round figures over what is drawn, the floor included. */
function scaleOf({ points, floor, least }: BandsProps): Scale {
  const all = [...points.flatMap(({ low, high }) => [low, high]), ...(floor ? [floor.value] : [])];
  const bottom = least ?? Math.min(...all);
  const step = stepOf(Math.max(Math.max(...all) - bottom, 1) / 3);
  const low = least ?? Math.floor(bottom / step) * step;
  const top = Math.max(Math.ceil((Math.max(...all) + step * 0.1) / step) * step, low + step);
  const count = Math.round((top - low) / step);
  return { low, top, lines: Array.from({ length: count }, (_, n) => low + (n + 1) * step) };
}

function ticksOf(from_km: number, to_km: number): number[] {
  const step = stepOf((to_km - from_km) / 3);
  const first = Math.ceil(from_km / step + 1e-9) * step;
  const inner = Array.from({ length: 8 }, (_, n) => first + n * step).filter((km) => km < to_km - step * 0.6);
  return [...new Set([from_km, ...inner.filter((km) => km > from_km + step * 0.6), to_km])];
}

function stepOf(span: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(span, 1e-3)));
  return [1, 2, 5, 10].map((one) => one * power).find((one) => one >= span * 0.999)!;
}

function anchorOf(at: number, width: number): "start" | "middle" | "end" {
  return at < 30 ? "start" : at > width - 30 ? "end" : "middle";
}
