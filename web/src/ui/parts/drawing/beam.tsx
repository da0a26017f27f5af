/**
 * The vehicle as a loaded beam: outline to scale, a scale in metres, axles as supports with figures under them,
 * loads as arrows, a hatched stretch where unplanned mass can sit, and the trailer as the same line carried on behind
 * the coupling. The same drawing serves every screen.
 */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { still } from "@/ui/parts/still";
import { useWide } from "@/ui/parts/wide";
import "./drawing.css";
import {
  type BodyFacts,
  type Frame,
  frameFor,
  type Shape,
  shapeOf,
  type TrailerFacts,
  type TrailerShape,
  tailOf,
  trailerShapeOf,
} from "./frame";
import { grouped, NAME_LINES, named } from "./groups";
import { type Arrow, Arrows, Centre, NAME_LINE, type Paper, Scale, Zone } from "./marks";
import { outlineOf } from "./outline";
import type { Circle } from "./path";
import { depthOf, layOut, placeOf, type Support, SupportMark } from "./supports";
import { Tanks } from "./tank_marks";
import { endsOf, layTanks, type TankMark } from "./tanks";
import { trailerOutlineOf } from "./trailer_outline";

export type { Arrow, Paper, Support, TankMark };

export interface BeamProps {
  readonly body: BodyFacts;
  readonly title: string;
  readonly trailer?: TrailerFacts | null;
  readonly supports?: readonly Support[];
  readonly arrows?: readonly Arrow[];
  readonly tanks?: readonly TankMark[];
  readonly zone?: { readonly from_m: number; readonly to_m: number } | null;
  readonly cg_x_m?: number | null;
  readonly onSupport?: (id: string) => void;
  /** Takes hold of things along the vehicle (`Handle`); the one with `id` is drawn by it. */
  readonly hold?: { readonly id: string | null; readonly draw: (paper: Paper) => JSX.Element };
  /** Drawn in a stretch of its own above the roof, `height` units high, where names would be, and over all else. */
  readonly over?: { readonly height: number; readonly draw: (frame: Frame) => JSX.Element };
}

const NARROW = 360;
const WIDE = 620;
const ARROWS_ABOVE = 56;
const MOST_NAMES = 7;

export function Beam(props: BeamProps): JSX.Element {
  const { supports = [] } = props;
  const paper = usePaper(props);
  const { frame, shape, trailer } = paper;
  const laid = layOut(supports, frame, trailer);
  const depth = depthOf(laid);
  return (
    <svg
      class={trailer ? "beam beam-long" : "beam"}
      viewBox={`0 0 ${frame.width} ${Math.ceil(frame.ground + depth + 8)}`}
      role="group"
      aria-label={props.title}
    >
      {props.zone ? <Zone zone={props.zone} frame={frame} shape={shape} /> : null}
      <Still {...paper} supports={supports.map((support) => placeOf(support, trailer)).join()} />
      <Tanks tanks={paper.tanks} naming={paper.name_lines > 0} />
      <Arrows paper={paper} />
      {typeof props.cg_x_m === "number" ? <Centre frame={frame} x_m={props.cg_x_m} /> : null}
      {laid.map((one) => (
        <SupportMark key={one.support.id} laid={one} frame={frame} depth={depth} onTouch={props.onSupport} />
      ))}
      {props.hold?.draw(paper)}
      {props.over?.draw(frame)}
    </svg>
  );
}

/** All of the drawing that stays while something is dragged over it. */
function usePaper({ body, trailer: facts, arrows = NONE, tanks = NONE, over, hold }: BeamProps): Paper {
  const wide = useWide(48);
  const held = hold?.id ?? null;
  const draggable = hold !== undefined;
  const naming = wide && !over;
  return useMemo(() => {
    const shape = shapeOf(body);
    const trailer = facts ? trailerShapeOf(facts, shape) : null;
    const name_lines = naming ? NAME_LINES : 0;
    const lines = name_lines + (draggable ? 1 : 0);
    const above = over?.height ?? (arrows.length === 0 ? 10 : ARROWS_ABOVE + lines * NAME_LINE);
    const places = [
      ...arrows.map((arrow) => placeOf(arrow, trailer)),
      ...tanks.flatMap((tank) => endsOf(tank, trailer)),
    ];
    const frame = frameFor(shape, facts && wide ? WIDE : NARROW, above, places, trailer);
    const x = (arrow: Arrow) => frame.x(placeOf(arrow, trailer));
    const free = <T extends Arrow>(all: readonly T[]) => all.filter((one) => one.id !== held);
    const groups = grouped(free(arrows), x);
    const within = grouped(free([...arrows, ...tanks]), x);
    const laid = layTanks(free(tanks), frame, trailer);
    const heaviest_kg = Math.max(1, ...groups.map((one) => one.mass_kg));
    const names = naming ? named(groups, frame.width, MOST_NAMES) : [];
    return { shape, trailer, frame, groups, tanks: laid, within, names, name_lines, heaviest_kg };
  }, [body, facts, arrows, tanks, over?.height, naming, wide, held, draggable]);
}

const NONE: readonly never[] = [];

/** The bodies and the scale. */
const Still = still(function Still(props: Paper & { readonly supports: string }): JSX.Element {
  const { shape, trailer, frame, supports } = props;
  return (
    <>
      {trailer ? <TrailerBody trailer={trailer} tail_m={tailOf(shape)} frame={frame} /> : null}
      <Body shape={shape} frame={frame} />
      <Scale frame={frame} clear={supports.split(",").map(Number)} />
    </>
  );
});

function Body({ shape, frame }: { shape: Shape; frame: Frame }): JSX.Element {
  const outline = outlineOf(shape, frame);
  return (
    <g aria-hidden="true">
      <path class="beam-glass" d={outline.glass} />
      {outline.box ? <path class="beam-line" d={outline.box} /> : null}
      <path class="beam-line beam-body" d={outline.body} />
      <Wheels wheels={outline.wheels} />
    </g>
  );
}

interface TrailerBodyProps {
  readonly trailer: TrailerShape;
  readonly tail_m: number;
  readonly frame: Frame;
}

function TrailerBody({ trailer, tail_m, frame }: TrailerBodyProps): JSX.Element {
  const outline = trailerOutlineOf(trailer, tail_m, frame);
  return (
    <g aria-hidden="true">
      <path class="beam-line" d={outline.hitch} />
      <Wheels wheels={trailer.coupled ? [] : [outline.hitchBall]} />
      <g class={trailer.dim ? "beam-dim" : ""}>
        <path class="beam-line" d={outline.drawbar} />
        <path class="beam-line" d={outline.body} />
        {outline.stand ? <path class="beam-line" d={outline.stand} /> : null}
        <Wheels wheels={[...outline.wheels, outline.ball]} />
      </g>
    </g>
  );
}

function Wheels({ wheels }: { readonly wheels: readonly Circle[] }): JSX.Element {
  return (
    <>
      {wheels.map((wheel) => (
        <circle key={wheel.x} class="beam-line beam-wheel" cx={wheel.x} cy={wheel.y} r={wheel.r} />
      ))}
    </>
  );
}
