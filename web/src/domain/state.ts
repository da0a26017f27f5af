/** The day's facts: what is in every tank, who sits where, which items are aboard. */
import type { Body, Book, Row } from "./book";

export const PERSON_U_KG = 3; // a mass that an occupant stated; assumed

/** Level as a fraction of the capacity, with its standard uncertainty and where it is known from. */
export interface TankLevel {
  readonly tank_id: string;
  readonly level: number;
  readonly level_u: number;
  readonly known_from: "estimate" | "dip" | "typed" | "prior";
}

/** What sits in a seat; an empty seat has no entry. */
export interface SeatLoad {
  readonly seat_id: string;
  readonly mass_kg: number;
  readonly mass_u_kg: number;
  readonly person_id: string | null;
}

/** One state of a vehicle. Items not in `items_away` are aboard; a fuel temperature only where one was told. */
export interface State {
  readonly tanks: readonly TankLevel[];
  readonly seats: readonly SeatLoad[];
  readonly items_away: readonly string[];
  readonly trailers_on: readonly string[];
  readonly fuel_temperature_c?: number | null;
  readonly fuel_temperature_u_c?: number | null;
}

/** The state that a weighing keeps a copy of. */
export function stateOfCopy({ copy }: { readonly copy: Body }): State {
  return {
    tanks: copy.tanks.map((tank: TankLevel) => ({
      tank_id: tank.tank_id,
      level: tank.level,
      level_u: tank.level_u,
      known_from: tank.known_from,
    })),
    seats: copy.seats.map((seat: SeatLoad) => ({
      seat_id: seat.seat_id,
      mass_kg: seat.mass_kg,
      mass_u_kg: seat.mass_u_kg,
      person_id: seat.person_id ?? null,
    })),
    items_away: copy.items
      .filter((item: { aboard: boolean }) => !item.aboard)
      .map((item: { item_id: string }) => item.item_id),
    trailers_on: copy.trailers
      .filter((one: { coupled: boolean }) => one.coupled)
      .map((one: { trailer_id: string }) => one.trailer_id),
    fuel_temperature_c: copy.fuel_temperature_c ?? null,
    fuel_temperature_u_c: copy.fuel_temperature_u_c ?? null,
  };
}

export interface LoggedState {
  readonly book: Book;
  readonly at: string;
  readonly levels?: readonly TankLevel[];
}

/** The state at an instant as the log has it, with tank levels that were estimated elsewhere. */
export function loggedState({ book, at, levels = [] }: LoggedState): State {
  const estimated = new Map(levels.map((level) => [level.tank_id, level]));
  const latest = presences(book, at);
  const away = book.items.filter((item) => latest.get(item.id)?.aboard === false);
  const coupled = [...latest.values()].filter((one) => one.subject === "trailer" && one.aboard);
  return {
    tanks: book.tanks.map((tank) => estimated.get(tank.id) ?? unknownLevel(tank.id)),
    seats: seated(book, latest),
    items_away: away.map((item) => item.id),
    trailers_on: coupled.map((one) => one.subject_id).sort(),
  };
}

/** All tanks full but grey and waste, everyone in the usual seat, every item aboard but those named, a trailer on if one is. */
export function fullState({
  book,
  but = [],
  trailer_id = null,
}: {
  readonly book: Book;
  readonly but?: readonly string[];
  readonly trailer_id?: string | null;
}): State {
  return {
    tanks: book.tanks.map((tank) => ({
      tank_id: tank.id,
      level: tank.body.holds === "grey" || tank.body.holds === "waste" ? 0 : 1,
      level_u: 0,
      known_from: "typed",
    })),
    seats: seated(book, new Map()),
    items_away: [...but],
    trailers_on: trailer_id === null ? [] : [trailer_id],
  };
}

/** A person in a seat; a blank u takes the default of a stated mass. */
export function seatLoad(seat_id: string, person: Row): SeatLoad {
  return {
    seat_id,
    mass_kg: person.body.mass_kg,
    mass_u_kg: person.body.mass_u_kg ?? PERSON_U_KG,
    person_id: person.id,
  };
}

/** Anything between empty and full is as likely: mean 1/2, standard deviation 1/sqrt 12. */
export function unknownLevel(tank_id: string): TankLevel {
  return { tank_id, level: 0.5, level_u: 12 ** -0.5, known_from: "prior" };
}

interface Presence {
  readonly subject: string;
  readonly subject_id: string;
  readonly aboard: boolean;
  readonly seat_id: string | null;
}

/** The latest entry per subject; once its planned end has passed, the opposite holds. */
function presences(book: Book, at: string): Map<string, Presence> {
  const latest = new Map<string, Presence>();
  for (const { body } of book.aboard) {
    if (body.at > at) continue;
    const ended = Boolean(body.until) && body.until <= at;
    latest.set(body.subject_id, {
      subject: body.subject,
      subject_id: body.subject_id,
      aboard: body.aboard !== ended,
      seat_id: body.seat_id ?? null,
    });
  }
  return latest;
}

/** Who sits where, in the order of the seats; of two in one seat the first person entered has it. */
export interface UsualSeat {
  readonly book: Book;
  readonly person: Row;
}

/** Where a person usually sits: by the person's record, else by the seat's. */
export function usualSeat({ book, person }: UsualSeat): string | null {
  const usual: string | null = person.body.usual_seat_id || null;
  return usual ?? book.seats.find((seat) => seat.body.usual_person_id === person.id)?.id ?? null;
}

export interface SeatsFor {
  readonly book: Book;
  readonly seats: readonly SeatLoad[];
  readonly people: readonly string[];
}

/** Who sits where if these people travel: whoever has a seat keeps it, the others take their usual one if it is free. */
export function seatsFor({ book, seats, people }: SeatsFor): SeatLoad[] {
  const travels = ({ person_id = null }: SeatLoad) => person_id === null || people.includes(person_id);
  const taken = new Map(seats.filter(travels).map((one) => [one.seat_id, one]));
  const sitting = new Set([...taken.values()].map((one) => one.person_id));
  for (const person of book.people) {
    const seat_id = usualSeat({ book, person });
    const comes = people.includes(person.id) && !sitting.has(person.id) && person.body.mass_kg != null;
    if (comes && seat_id !== null && !taken.has(seat_id)) taken.set(seat_id, seatLoad(seat_id, person));
  }
  return book.seats.flatMap((seat) => taken.get(seat.id) ?? []);
}

function seated(book: Book, known: ReadonlyMap<string, Presence>): SeatLoad[] {
  const taken = new Map<string, SeatLoad>();
  for (const person of book.people) {
    const seat_id = seatOf(book, person, known.get(person.id) ?? null);
    if (seat_id && typeof person.body.mass_kg === "number" && !taken.has(seat_id))
      taken.set(seat_id, seatLoad(seat_id, person));
  }
  return book.seats.flatMap((seat) => taken.get(seat.id) ?? []);
}

function seatOf(book: Book, person: Row, presence: Presence | null): string | null {
  if (presence) {
    if (!presence.aboard) return null;
    if (presence.seat_id) return presence.seat_id;
  }
  return usualSeat({ book, person });
}
