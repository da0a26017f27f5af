/** From a visit and the state of the day to the weighing that is saved. Pure. */
import type { Book, Row, State } from "@/services/answers";
import { type BridgeFacts, readFacts } from "./bridge_facts";
import { deckName } from "./standing";
import { repeatOf, type TakenReading, type Visit } from "./visit";

export interface WeighingParts {
  readonly visit: Visit;
  readonly at: string;
  readonly zone: string;
  readonly bridge: BridgeFacts;
  readonly ticket: string;
  readonly state: State | null;
  readonly confirmed: boolean;
  readonly book: Book;
}

/** The body of a weighing record (the contract's `weighing`). */
export function weighingBody(parts: WeighingParts): Row["body"] {
  const { visit, bridge, state, book } = parts;
  return {
    at: parts.at,
    zone: parts.zone,
    bridge: readFacts(bridge, visit.form, visit.readings).body,
    // whether a reading was split is left to the calculation, which knows what was coupled
    readings: visit.readings.map((one) => ({
      id: one.id,
      on_deck: one.on_deck,
      value_kg: one.value_kg,
      as_typed: { value_kg: one.typed },
      repeat_of: repeatOf(visit.readings, one),
      differs: differsFrom(state, one),
      struck_out: one.struck_out,
      ...deckOf(visit, one),
    })),
    state: state ? stateCopy(book, state, parts.confirmed) : null,
    ...(parts.ticket ? { ticket_number: parts.ticket } : {}),
  };
}

function deckOf(visit: Visit, { on_deck }: TakenReading): Row["body"] {
  const deck = deckName(visit, on_deck);
  return deck === null ? {} : { deck };
}

/** Only what truly differs: nobody leaves a seat that the state has empty, nor uncouples what it has uncoupled. */
function differsFrom(state: State | null, { differs }: TakenReading): Row["body"] | null {
  const taken = state && new Set(state.seats.map((load) => load.seat_id));
  const seats_empty = differs.seats_empty.filter((seat) => taken === null || taken.has(seat));
  const uncoupled = differs.uncoupled && (state === null || state.trailers_on.length > 0);
  if (!uncoupled && seats_empty.length === 0) return null;
  return { ...(uncoupled ? { uncoupled } : {}), ...(seats_empty.length > 0 ? { seats_empty } : {}) };
}

function stateCopy(book: Book, state: State, confirmed: boolean): Row["body"] {
  const away = new Set(state.items_away);
  const { vehicle, trailers, items, tanks, seats, plates } = book;
  const plan = [vehicle, ...trailers, ...items, ...tanks, ...seats, ...plates];
  return {
    settled_by: confirmed ? "confirmed" : "as_logged",
    tanks: state.tanks,
    seats: state.seats,
    items: items.map((item) => ({ item_id: item.id, aboard: !away.has(item.id) })),
    trailers: trailers.map(({ id }) => ({ trailer_id: id, coupled: state.trailers_on.includes(id) })),
    ...(state.fuel_temperature_c == null
      ? {}
      : { fuel_temperature_c: state.fuel_temperature_c, fuel_temperature_u_c: state.fuel_temperature_u_c }),
    plan: plan.flatMap((row) => (row ? [{ id: row.id, rev: row.rev }] : [])),
  };
}
