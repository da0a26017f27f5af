/** What the owner asked for: kept as typed, and read into what the question needs. */
import type { Book, State } from "@/services/answers";
import { fullState } from "@/services/answers";
import { type Refused, type Wishes, weighedState } from "@/services/change";
import { trailerIn } from "@/ui/parts/drawing/towed";
import { words } from "@/ui/text/change";
import { readTyped, type TypedNumber } from "@/units/typed";

/** The form as it stands. `state`: weighed, now, full, or the id of the trailer that is on. */
export interface Asked {
  readonly state: string;
  readonly tanks: string;
  readonly objective: string;
  readonly refused: readonly Refused[];
  readonly reserve: TypedNumber;
  readonly coupling: TypedNumber;
  readonly fuel: boolean;
}

export function firstAsked(state: string): Asked {
  return {
    ...{ state, tanks: "as_is", objective: "moves", refused: [], fuel: false },
    ...{ reserve: { text: "", unit: "L" }, coupling: { text: "", unit: "kg" } },
  };
}

export function stateIn(book: Book, { state }: Asked, weighing: string | null, now: () => State): State {
  if (state === "weighed" && weighing) return weighedState(book, weighing) ?? now();
  const trailer = book.trailers.find((one) => one.id === state);
  return trailer || state === "full" ? fullState({ book, trailer_id: trailer?.id ?? null }) : now();
}

const MOST_L = 5_000;
const MOST_KG = 5_000;

export interface ReadAsked {
  readonly wishes: Wishes;
  readonly errors: { readonly reserve: string | null; readonly coupling: string | null };
}

/** What the trailer that is on asks of its coupling at least, kg. */
export function leastCouplingKg(book: Book, state: State): number {
  return trailerIn(book, state.trailers_on)?.body.least_coupling_kg ?? 0;
}

/** A figure that cannot be read counts as blank, with its error beside it; a blank coupling load as the trailer's. */
export function readAsked(asked: Asked, least_kg = 0): ReadAsked {
  const reserve = readTyped(asked.reserve, {
    ...{ dimension: "volume", low: 0, high: MOST_L },
    name: words.reserve,
  });
  const coupling = readTyped(asked.coupling, {
    ...{ dimension: "mass", low: 0, high: MOST_KG },
    name: words.coupling,
  });
  return {
    wishes: {
      tanks: asked.tanks === "worst" ? "worst" : "as_is",
      objective: asked.objective === "off" ? "off" : "moves",
      refused: asked.refused,
      let_out: asked.fuel ? ["water", "fuel"] : ["water"],
      water_reserve_l: reserve.kind === "ok" ? reserve.base : null,
      least_coupling_kg: coupling.kind === "ok" ? coupling.base : least_kg,
    },
    errors: {
      reserve: reserve.kind === "wrong" ? reserve.message : null,
      coupling: coupling.kind === "wrong" ? coupling.message : null,
    },
  };
}
