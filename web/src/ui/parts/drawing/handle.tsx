/**
 * What is taken hold of on the beam: a finger anywhere over it takes the nearest arrow, and moves it along the vehicle;
 * the arrow keys move it as well. While it is touched, a block of its mass stands in its place.
 */
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { words } from "@/ui/text/drawing";
import { nearest } from "./groups";
import { type Arrow, arrowAt, arrowPath, nameY, type Paper } from "./marks";
import { placeOf } from "./supports";
import { TankOutline } from "./tank_marks";
import { layTanks, type TankMark, tanksAt } from "./tanks";

export type Held = (Arrow | TankMark) & {
  /** Somebody's finger is on it. */
  readonly touched: boolean;
};

export interface Drag {
  /** At its place of the moment. */
  readonly held: Held | null;
  /** What a finger comes down on: one thing, or several that stand in one place. */
  readonly onTake: (members: readonly Arrow[]) => void;
  /** To a whole centimetre. */
  readonly onMove: (x_m: number) => void;
  /** `keep` is false where it goes back. */
  readonly onDrop: (keep: boolean) => void;
}

interface Props {
  readonly drag: Drag;
  readonly paper: Paper;
}

const REACH_PX = 24;
const STARTS_PX = 4;
const STEP_M = 0.01;
const BLOCK = 22;

export function Handle({ drag, paper }: Props): JSX.Element {
  const { frame } = paper;
  const { held } = drag;
  return (
    <>
      <rect
        class="beam-band"
        {...useFinger(drag, paper)}
        x={0}
        y={0}
        width={frame.width}
        height={frame.ground}
      />
      {held ? <HeldArrow drag={drag} held={held} paper={paper} /> : null}
    </>
  );
}

/** Touch, drag, let go. */
function useFinger(drag: Drag, paper: Paper) {
  const { frame, trailer, within, tanks } = paper;
  const { held } = drag;
  const from = useRef<{ client: number; x_m: number; px_per_m: number; moving: boolean } | null>(null);
  const down = (event: PointerEvent) => {
    if (event.button !== 0) return;
    const box = (event.currentTarget as Element).getBoundingClientRect();
    const px = box.width / frame.width;
    const x = (event.clientX - box.left) / px;
    const reach = REACH_PX / px;
    const own = held ? Math.abs(frame.x(placeOf(held, trailer)) - x) : Number.POSITIVE_INFINITY;
    const under = tanksAt(tanks, x, (event.clientY - box.top) / px);
    const near = under.length > 0 ? under : (nearest(within, x, reach)?.members ?? []);
    const members = own <= reach / 2 || near.length === 0 ? (held && own <= reach ? [held] : []) : near;
    const [alone] = members;
    if (!alone) return;
    drag.onTake(members);
    if (members.length > 1) return;
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
    const px_per_m = px * frame.units_per_m;
    from.current = { client: event.clientX, x_m: alone.x_m, px_per_m, moving: false };
  };
  const move = (event: PointerEvent) => {
    const start = from.current;
    if (!start) return;
    const by = event.clientX - start.client;
    start.moving ||= Math.abs(by) >= STARTS_PX;
    if (start.moving) drag.onMove(centimetres(start.x_m + by / start.px_per_m));
  };
  const end = (keep: boolean) => () => {
    if (from.current) drag.onDrop(keep);
    from.current = null;
  };
  return { onPointerDown: down, onPointerMove: move, onPointerUp: end(true), onPointerCancel: end(false) };
}

function HeldArrow({ drag, held, paper }: Props & { readonly held: Held }): JSX.Element {
  const { frame, trailer } = paper;
  const x = frame.x(placeOf(held, trailer));
  const { tip, length } = arrowAt(paper, held, x, held.mass_kg);
  const element = useRef<SVGGElement>(null);
  useEffect(() => {
    if (held.touched) element.current?.focus({ preventScroll: true });
  }, [held.id, held.touched]);
  const key = (event: KeyboardEvent) => {
    const way = event.key === "ArrowLeft" ? -1 : event.key === "ArrowRight" ? 1 : 0;
    if (way !== 0) drag.onMove(centimetres(held.x_m + way * STEP_M * (event.shiftKey ? 10 : 1)));
    else if (event.key === "Enter" || event.key === "Escape") drag.onDrop(event.key === "Enter");
    else return;
    event.preventDefault();
  };
  const text = `${held.label}  ${words.place(held.x_m)}`;
  const half = Math.min((text.length * 6.2) / 2, frame.width / 2);
  return (
    <g
      ref={element}
      class="beam-held"
      role="slider"
      tabIndex={0}
      aria-label={held.label}
      aria-valuenow={held.x_m}
      aria-valuemin={-3}
      aria-valuemax={20}
      aria-valuetext={words.place(held.x_m)}
      onKeyDown={key}
      onBlur={() => held.touched || drag.onDrop(true)}
    >
      {"size" in held ? (
        <g class="beam-tank">
          <TankOutline tank={layTanks([held], frame, trailer)[0]!} />
        </g>
      ) : null}
      <line class="beam-plumb" x1={x} x2={x} y1={tip} y2={frame.ground} />
      {held.touched ? (
        <rect class="beam-block" x={x - BLOCK / 2} y={tip - length} width={BLOCK} height={length} />
      ) : (
        <path d={arrowPath(x, tip, length)} />
      )}
      <text
        class="beam-name"
        x={Math.min(Math.max(x, half), frame.width - half)}
        y={nameY(paper, paper.name_lines)}
        text-anchor="middle"
      >
        {text}
      </text>
    </g>
  );
}

function centimetres(x_m: number): number {
  return Math.min(20, Math.max(-3, Math.round(x_m * 100) / 100 + 0));
}
