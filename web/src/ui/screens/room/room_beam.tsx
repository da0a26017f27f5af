/** The beam with the curve of what may still be added above it; a touch puts the question there. */
import type { JSX } from "preact";
import type { Held, Piece } from "@/services/room";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import { CURVE_HEIGHT, Curve, type CurvePiece } from "@/ui/parts/drawing/curve";
import {
  type BodyFacts,
  shapeOf,
  type TrailerFacts,
  type TrailerShape,
  tailOf,
  trailerShapeOf,
  trailerTailOf,
} from "@/ui/parts/drawing/frame";
import { axlePlaces, ROW_OF } from "@/ui/parts/drawing/towed";
import { figure, twoSided, withReach } from "@/ui/text/figures";
import type { Terms } from "@/ui/text/ratings";
import { limitName, words } from "@/ui/text/room";
import type { Place } from "./places";

type Ends = readonly [from_m: number, to_m: number];

/** How far each curve reaches; the trailer's begins behind the vehicle's tail. */
export function endsOf(
  body: BodyFacts,
  trailer: TrailerShape | null,
): { readonly vehicle: Ends; readonly trailer: Ends | null } {
  const shape = shapeOf(body);
  const tail_m = tailOf(shape);
  if (!trailer) return { vehicle: [-shape.front_overhang_m, tail_m], trailer: null };
  const start_m = Math.max(0, tail_m - trailer.coupling_x_m);
  const end_m = trailerTailOf(trailer) - trailer.coupling_x_m;
  return {
    vehicle: [-shape.front_overhang_m, tail_m],
    trailer: end_m > start_m ? [start_m, end_m] : null,
  };
}

interface Props {
  readonly body: BodyFacts;
  readonly trailer: TrailerFacts | null;
  readonly held: Held;
  readonly curves: { readonly vehicle: readonly Piece[]; readonly trailer: readonly Piece[] };
  readonly place: Place;
  readonly told: string;
  readonly terms: Terms | null;
  readonly onPlace: (place: Place) => void;
}

export function RoomBeam(props: Props): JSX.Element {
  const { body, trailer, held, curves, place, terms } = props;
  const shape = shapeOf(body);
  const coupling_x_m = trailer ? trailerShapeOf(trailer, shape).coupling_x_m : 0;
  const pieces = [
    ...curves.vehicle.map((one) => drawn(one, 0, terms)),
    ...curves.trailer.map((one) => drawn(one, coupling_x_m, terms)),
  ];
  const x_m = place.x_m + (place.where === "trailer" ? coupling_x_m : 0);
  const pick = (at_m: number) => {
    if (trailer && at_m > tailOf(shape))
      return props.onPlace({ where: "trailer", x_m: Math.max(0, at_m - coupling_x_m) });
    props.onPlace({ where: place.where === "roof" ? "roof" : "vehicle", x_m: at_m });
  };
  const kg = place.where === "roof" ? null : kgAt(pieces, x_m);
  return (
    <Beam
      body={body}
      title={words.drawing}
      trailer={trailer}
      supports={supportsOf(body, trailer, held)}
      over={{
        height: CURVE_HEIGHT,
        draw: (frame) => (
          <Curve
            {...{ frame, pieces }}
            height={CURVE_HEIGHT}
            picked={{ x_m, kg, told: props.told }}
            title={words.slide}
            onPick={pick}
          />
        ),
      }}
    />
  );
}

function drawn({ binds, points }: Piece, shift_m: number, terms: Terms | null): CurvePiece {
  return {
    key: keyOf(binds),
    label: binds ? limitName(binds, terms).replace(/ \(.*/, "") : words.none,
    points: points.map((one) => ({ ...one, x_m: one.x_m + shift_m })),
  };
}

/** A limit's line style goes by its rating; lower limits have one of their own. */
export function keyOf(binds: Piece["binds"]): string {
  return binds === null ? "none" : binds.side === "lower" ? `lift ${binds.rating}` : binds.rating;
}

/** On the drawn curve, between two of its points. */
function kgAt(pieces: readonly CurvePiece[], x_m: number): number | null {
  for (const { points } of pieces)
    for (let k = 1; k < points.length; k++) {
      const [a, b] = [points[k - 1]!, points[k]!];
      if (x_m < a.x_m - 1e-9 || x_m > b.x_m + 1e-9 || a.kg === null || b.kg === null) continue;
      return a.kg + ((b.kg - a.kg) * (x_m - a.x_m)) / (b.x_m - a.x_m || 1);
    }
  return null;
}

function supportsOf(body: BodyFacts, trailer: TrailerFacts | null, held: Held): Support[] {
  return axlePlaces(body, trailer).map((place) => {
    const found = held.limits.find((one) => one.side === "upper" && one.rating === ROW_OF[place.id]);
    if (!found) return { ...place, figure: "?", label: place.id };
    const { mean_kg, u_kg } = found;
    return {
      ...place,
      figure: u_kg > 0 ? withReach(mean_kg, twoSided(u_kg)) : figure(mean_kg),
      label: place.id,
    };
  });
}
