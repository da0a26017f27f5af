/**
 * One tank with a dip scale beside it: what the outlet cannot reach hatched below, the reserve as a floor line, the level
 * by the log as notch and whisker. Touched or dragged, or with the keys of a slider, it takes where the level stands.
 */
import type { JSX } from "preact";
import { useRef } from "preact/hooks";
import { words } from "@/ui/text/tank";
import "./tank_picture.css";

/** Litres, and how far the whisker reaches to either side. */
export interface Standing {
  readonly litres: number;
  readonly reach: number;
}

export interface TankPictureProps {
  readonly capacity_l: number;
  readonly unusable_l: number;
  /** Litres of it that are not counted on. */
  readonly floor_l: number;
  /** What the log says, or null. */
  readonly level: Standing | null;
  /** What is read now, or null before anything is. */
  readonly dip: Standing | null;
  readonly title: string;
  /** The slider's name. */
  readonly label: string;
  readonly onDip: (litres: number) => void;
}

const WIDTH = 340;
const TOP = 16;
const TALL = 188;
const BODY = { x: 4, width: 132 };
const SCALE = 156;
const FIGURES = SCALE + 14;
const MARKS = 226;
const THUMB = 44;
const GRIP_X = BODY.x + BODY.width - 26;

export function TankPicture(props: TankPictureProps): JSX.Element {
  const { capacity_l, unusable_l, floor_l, level, dip } = props;
  const whole = capacity_l + unusable_l;
  const y = (litres: number) =>
    TOP + TALL * (1 - (Math.min(capacity_l, Math.max(0, litres)) + unusable_l) / whole);
  const empty = y(0);
  const bottom = TOP + TALL;
  const told = level ? [{ ...level, kind: "log" }] : [];
  const marks = dip ? [...told, { ...dip, kind: "dip" }] : told;
  return (
    <svg class="tank" viewBox={`0 0 ${WIDTH} ${bottom + 14}`} role="group" aria-label={props.title}>
      <g aria-hidden="true">
        <Hatch />
        {unusable_l > 0 ? (
          <rect x={BODY.x} y={empty} width={BODY.width} height={bottom - empty} fill="url(#tank-hatch)" />
        ) : null}
        <rect class="tank-body" x={BODY.x} y={TOP} width={BODY.width} height={TALL} rx={9} />
        <path class="tank-body" d={`M${BODY.x + 18} ${TOP}v-9h22v9`} />
        {floor_l > 0 ? <Floor y={y(floor_l)} text={words.reserve(floor_l)} /> : null}
        <Ticks capacity_l={capacity_l} y={y} />
        {marks.map((mark) => (
          <g key={mark.kind} class={`tank-${mark.kind}`}>
            <path
              class="tank-whisker"
              d={`M${SCALE} ${y(mark.litres - mark.reach)}V${y(mark.litres + mark.reach)}`}
            />
            <path class="tank-notch" d={`M${SCALE - 13} ${y(mark.litres)}h26`} />
          </g>
        ))}
        <Names level={level} dip={dip} y={y} />
      </g>
      <Finger {...props} y={y} />
    </svg>
  );
}

function Hatch(): JSX.Element {
  return (
    <pattern id="tank-hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <line class="beam-hatch" x1="0" x2="0" y1="0" y2="7" />
    </pattern>
  );
}

/** The reserve's line with its name over it. */
function Floor({ y, text }: { readonly y: number; readonly text: string }): JSX.Element {
  return (
    <>
      <path class="tank-floor" d={`M${BODY.x} ${y}H${SCALE}`} />
      <text class="tank-floor-name" x={BODY.x + 8} y={y - 5}>
        {text}
      </text>
    </>
  );
}

interface ScaleProps {
  readonly capacity_l: number;
  readonly y: (litres: number) => number;
}

/** Ticks at sensible steps with a figure on each long one, and the full tank. */
function Ticks({ capacity_l, y }: ScaleProps): JSX.Element {
  const { step, parts } = stepsOf(capacity_l);
  const count = Math.floor((capacity_l / step) * parts + 1e-9);
  const ticks = Array.from({ length: count + 1 }, (_, n) => n);
  const crowded = (litres: number) => litres < capacity_l && y(litres) - y(capacity_l) < 15;
  return (
    <>
      <path class="tank-scale" d={`M${SCALE} ${y(0)}V${y(capacity_l)}`} />
      {ticks.map((n) => (
        <path
          key={n}
          class="tank-scale"
          d={`M${SCALE} ${y((n * step) / parts)}h${n % parts === 0 ? 9 : 5}`}
        />
      ))}
      <path class="tank-scale" d={`M${SCALE} ${y(capacity_l)}h9`} />
      {[...ticks.filter((n) => n % parts === 0).map((n) => (n / parts) * step), capacity_l].map(
        (litres, k, all) =>
          crowded(litres) || all.indexOf(litres) !== k ? null : (
            <text key={litres} class="tank-tick" x={FIGURES} y={y(litres) + 4}>
              {words.tick(litres)}
            </text>
          ),
      )}
    </>
  );
}

/** The long steps of a scale in litres, at most six of them, and into how many short ones each is cut. */
export function stepsOf(capacity_l: number): { step: number; parts: number } {
  const least = capacity_l / 6;
  const ten = 10 ** Math.floor(Math.log10(least));
  const [times, parts] = (
    [
      [1, 5],
      [2, 4],
      [5, 5],
      [10, 5],
    ] as const
  ).find(([one]) => one * ten >= least - 1e-9)!;
  return { step: times * ten, parts };
}

/** What a finger or a key moves by: about a hundredth of the tank. */
export function grainOf(capacity_l: number): number {
  const least = capacity_l / 125;
  const ten = 10 ** Math.floor(Math.log10(least));
  return [1, 2, 5, 10].find((one) => one * ten >= least - 1e-9)! * ten;
}

function Names({
  level,
  dip,
  y,
}: Pick<TankPictureProps, "level" | "dip"> & Pick<ScaleProps, "y">): JSX.Element {
  const at = level ? y(level.litres) : 0;
  const now = dip ? y(dip.litres) : 0;
  // the one that is read now keeps its place, the other makes room
  const beside = dip && Math.abs(at - now) < 34 ? (at < now ? Math.max(TOP + 4, now - 34) : now + 34) : at;
  return (
    <>
      {level ? <Name kind="log" y={beside} name={words.byLog} figure={words.standing(level)} /> : null}
      {dip ? <Name kind="dip" y={now} name={words.now} figure={words.standing(dip)} /> : null}
    </>
  );
}

interface NameProps {
  readonly kind: string;
  readonly y: number;
  readonly name: string;
  readonly figure: string;
}

function Name({ kind, y, name, figure }: NameProps): JSX.Element {
  return (
    <text class={`tank-name tank-name-${kind}`} x={MARKS} y={y - 3}>
      {name}
      <tspan class="tank-figure" x={MARKS} dy={16}>
        {figure}
      </tspan>
    </text>
  );
}

/** A touch anywhere sets the level there; the thumb may be dragged, and the page scrolls beside it. */
function Finger(props: TankPictureProps & Pick<ScaleProps, "y">): JSX.Element {
  const { capacity_l, unusable_l, level, dip, label, onDip, y } = props;
  const grain = grainOf(capacity_l);
  const slider = useRef<SVGGElement>(null);
  const paper = useRef<SVGRectElement>(null);
  const dragging = useRef(false);
  const litres = dip?.litres ?? level?.litres ?? capacity_l / 2;
  const put = (next: number) => onDip(inGrains(next, grain, capacity_l));
  const at = (event: MouseEvent) => {
    const box = paper.current!.getBoundingClientRect();
    const unit = ((event.clientY - box.top) / box.width) * WIDTH;
    put((1 - (unit - TOP) / TALL) * (capacity_l + unusable_l) - unusable_l);
    slider.current!.focus({ preventScroll: true });
  };
  const down = (event: PointerEvent) => {
    if (event.button !== 0 || event.target === paper.current) return;
    dragging.current = true;
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
  };
  const end = () => {
    dragging.current = false;
  };
  const key = (event: KeyboardEvent) => {
    const to = movedBy(event.key, litres, grain, capacity_l);
    if (to === null) return;
    event.preventDefault();
    put(to);
  };
  return (
    <g
      ref={slider}
      class={dip ? "tank-thumb" : "tank-thumb tank-thumb-open"}
      role="slider"
      tabindex={0}
      aria-label={label}
      aria-orientation="vertical"
      aria-valuemin={0}
      aria-valuemax={capacity_l}
      aria-valuenow={litres}
      aria-valuetext={dip ? words.reads(dip, capacity_l) : words.notRead}
      onKeyDown={key}
      onClick={at}
      onPointerDown={down}
      onPointerMove={(event) => dragging.current && at(event)}
      onPointerUp={end}
      onPointerCancel={end}
    >
      <rect ref={paper} class="tank-touch" x={0} y={0} width={WIDTH} height={TOP + TALL + 14} />
      <rect
        class="tank-grip"
        x={BODY.x}
        y={y(litres) - THUMB / 2}
        width={SCALE + 40 - BODY.x}
        height={THUMB}
      />
      <Thumb y={y(litres)} />
    </g>
  );
}

/** The nearest level that a finger can set; a full tank need not be a whole number of grains. */
function inGrains(litres: number, grain: number, capacity_l: number): number {
  if (litres > capacity_l - grain / 2) return capacity_l;
  return Number((Math.round(Math.max(0, litres) / grain) * grain).toFixed(3));
}

function Thumb({ y }: { readonly y: number }): JSX.Element {
  return (
    <>
      <path d={`M${BODY.x} ${y}H${SCALE - 14}`} />
      <circle cx={GRIP_X} cy={y} r={10} />
      <path d={`M${GRIP_X - 4} ${y - 2.5}l4 -3.5l4 3.5m-8 5l4 3.5l4 -3.5`} />
    </>
  );
}

/** Where a key moves it, or null. */
function movedBy(key: string, litres: number, grain: number, capacity_l: number): number | null {
  const by: Readonly<Record<string, number>> = {
    ArrowUp: grain,
    ArrowRight: grain,
    ArrowDown: -grain,
    ArrowLeft: -grain,
    PageUp: capacity_l / 4,
    PageDown: -capacity_l / 4,
    Home: -capacity_l,
    End: capacity_l,
  };
  const step = by[key];
  return step === undefined ? null : litres + step;
}
