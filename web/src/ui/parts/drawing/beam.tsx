/**
 * The vehicle as a loaded beam: outline to scale, a scale in metres, axles as supports with figures under them,
 * loads as arrows, a hatched stretch where unplanned mass can sit, and the trailer as the same line carried on behind
 * the coupling. The same drawing serves every screen.
 */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
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
import { type Arrow, Arrows, Centre, Scale, Zone } from "./marks";
import { outlineOf } from "./outline";
import type { Circle } from "./path";
import { depthOf, layOut, placeOf, type Support, SupportMark } from "./supports";
import { trailerOutlineOf } from "./trailer_outline";

export type { Arrow, Support };

export interface BeamProps {
  readonly body: BodyFacts;
  readonly title: string;
  readonly trailer?: TrailerFacts | null;
  readonly supports?: readonly Support[];
  readonly arrows?: readonly Arrow[];
  readonly zone?: { readonly from_m: number; readonly to_m: number } | null;
  readonly cg_x_m?: number | null;
  readonly picked?: string | null;
  readonly onSupport?: (id: string) => void;
  /** Drawn in a stretch of its own above the roof, `height` units high, and over everything else. */
  readonly over?: { readonly height: number; readonly draw: (frame: Frame) => JSX.Element };
}

const NARROW = 360;
const WIDE = 620;
const ABOVE = 46;

export function Beam(props: BeamProps): JSX.Element {
  const wide = useWide();
  const { supports = [], arrows = [] } = props;
  const shape = shapeOf(props.body);
  const trailer = props.trailer ? trailerShapeOf(props.trailer, shape) : null;
  const above = props.over?.height ?? (arrows.length > 0 ? ABOVE : 10);
  const places = arrows.map((arrow) => placeOf(arrow, trailer));
  const frame = frameFor(shape, trailer && wide ? WIDE : NARROW, above, places, trailer);
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
      {trailer ? <TrailerBody trailer={trailer} tail_m={tailOf(shape)} frame={frame} /> : null}
      <Body shape={shape} frame={frame} />
      <Scale frame={frame} clear={supports.map((support) => placeOf(support, trailer))} />
      <Arrows arrows={arrows} frame={frame} shape={shape} trailer={trailer} picked={props.picked ?? null} />
      {typeof props.cg_x_m === "number" ? <Centre frame={frame} x_m={props.cg_x_m} /> : null}
      {laid.map((one) => (
        <SupportMark key={one.support.id} laid={one} frame={frame} depth={depth} onTouch={props.onSupport} />
      ))}
      {props.over?.draw(frame)}
    </svg>
  );
}

/** Room for a longer drawing with figures of the same size. */
function useWide(): boolean {
  const [query] = useState(() => matchMedia("(min-width: 48rem)"));
  const [wide, setWide] = useState(query.matches);
  useEffect(() => {
    const look = () => setWide(query.matches);
    query.addEventListener("change", look);
    return () => query.removeEventListener("change", look);
  }, [query]);
  return wide;
}

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
