/** From a book's records to what the beam draws: the trailer of a state, and where the axles stand. */
import type { Book, Row } from "@/services/answers";
import { AXLE_PITCH_M, type BodyFacts, shapeOf, type TrailerFacts, trailerShapeOf } from "./frame";
import type { Support } from "./supports";

/** The trailer that a state has coupled, or null. */
export function trailerIn(book: Book, trailers_on: readonly string[]): Row | null {
  return book.trailers.find((one) => trailers_on.includes(one.id)) ?? null;
}

/** The trailer that a weighing's copy of the state has coupled, or null. */
export function coupledIn({ body }: Row): string | null {
  const trailers: readonly Row["body"][] = body.state?.trailers ?? [];
  return trailers.find((one) => one.coupled)?.trailer_id ?? null;
}

/** A trailer as the beam draws it behind this book's vehicle. */
export function trailerFacts(
  book: Book,
  trailer: Row,
  how: { readonly coupled: boolean; readonly dim?: boolean } = { coupled: true },
): TrailerFacts {
  const { body_form, coupling_to_axle_m, axles, rear_overhang_m } = trailer.body;
  const coupling_x_m = book.vehicle?.body.coupling_x_m;
  return { body_form, coupling_to_axle_m, axles, rear_overhang_m, coupling_x_m, ...how };
}

export type AxleId = "front" | "rear" | "rear_1" | "rear_2" | "trailer" | "coupling";

/** The load that a support carries, by its name in calculations. */
export const ROW_OF: Readonly<Record<AxleId, string>> = {
  front: "front",
  rear: "rear",
  rear_1: "rear_1",
  rear_2: "rear_2",
  trailer: "trailer_axles",
  coupling: "coupling",
};

type Place = Pick<Support, "x_m" | "reach_m" | "trailer"> & { readonly id: AxleId };

const WHEEL_M = 0.52;

/** The supports of a vehicle: a rear pair is one support in its middle, or two where each axle is read singly. */
export function axlePlaces(
  body: BodyFacts,
  trailer: TrailerFacts | null = null,
  singly = false,
): readonly Place[] {
  const { wheelbase_m, rear_spread_m } = shapeOf(body);
  const half_m = rear_spread_m / 2;
  const rear: Place[] = singly
    ? [
        { id: "rear_1", x_m: wheelbase_m, reach_m: Math.min(WHEEL_M, half_m) },
        { id: "rear_2", x_m: wheelbase_m + rear_spread_m, reach_m: Math.min(WHEEL_M, half_m) },
      ]
    : [{ id: "rear", x_m: wheelbase_m + half_m, reach_m: WHEEL_M + half_m }];
  return [{ id: "front", x_m: 0, reach_m: WHEEL_M }, ...rear, ...(trailer ? behind(body, trailer) : [])];
}

function behind(body: BodyFacts, trailer: TrailerFacts): Place[] {
  const { axles: count, coupling_to_axle_m: x_m } = trailerShapeOf(trailer, shapeOf(body));
  const reach_m = WHEEL_M + ((count - 1) * AXLE_PITCH_M) / 2;
  const axles: Place = { id: "trailer", x_m, reach_m, trailer: true };
  return trailer.coupled ? [{ id: "coupling", x_m: 0, trailer: true }, axles] : [axles];
}
