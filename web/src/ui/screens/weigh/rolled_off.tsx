/** After roll-off: was this the state of the vehicle? One touch, or corrected first. */
import type { ComponentChildren, JSX } from "preact";
import { useState } from "preact/hooks";
import type { Book, State } from "@/services/answers";
import { trailerIn } from "@/ui/parts/drawing/towed";
import { NumberField, TextField, type TypedNumber, YesNo } from "@/ui/parts/forms";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { litres, twoSided } from "@/ui/text/figures";
import { words } from "@/ui/text/weigh";
import { readTyped } from "@/units/typed";
import { FuelTemperature } from "./fuel_temperature";

export interface RolledOffProps {
  readonly book: Book;
  readonly state: State;
  readonly ticket: string;
  readonly warmth: TypedNumber;
  /** Which bridge it was. */
  readonly bridge: ComponentChildren;
  readonly onState: (state: State) => void;
  readonly onWarmth: (warmth: TypedNumber) => void;
  readonly onTicket: (ticket: string) => void;
}

export function RolledOff(props: RolledOffProps): JSX.Element {
  const [correcting, setCorrecting] = useState(false);
  return (
    <>
      <Section title={words.state.ask}>
        {correcting ? <Correct {...props} /> : <AsLogged {...props} />}
        {correcting || empty(props.book) ? null : (
          <Row label={words.state.correct} onTouch={() => setCorrecting(true)} />
        )}
        <FuelTemperature book={props.book} value={props.warmth} onChange={props.onWarmth} />
      </Section>
      <Section title={words.state.bridge}>
        {props.bridge}
        <TextField label={words.state.ticket} value={props.ticket} onChange={props.onTicket} />
      </Section>
    </>
  );
}

function AsLogged({ book, state }: RolledOffProps): JSX.Element {
  if (empty(book)) return <p>{words.state.nothing}</p>;
  const names = state.seats.map((load) => personName(book, load.person_id));
  const away = book.items.filter((item) => state.items_away.includes(item.id)).map((item) => item.body.name);
  return (
    <>
      {book.tanks.map((tank) => (
        <Row key={tank.id} label={tank.body.name} figure={levelText(book, state, tank.id)} />
      ))}
      <Row label={words.state.people} said={names.join(", ") || words.state.nobody} />
      {book.trailers.length > 0 ? <Row label={words.state.trailer} said={coupledText(book, state)} /> : null}
      {away.length > 0 ? <Row label={words.state.away(away.join(", "))} /> : null}
    </>
  );
}

function Correct({ book, state, onState }: RolledOffProps): JSX.Element {
  return (
    <>
      {book.tanks.map((tank) => (
        <TankLevelField key={tank.id} book={book} state={state} tankId={tank.id} onState={onState} />
      ))}
      {book.trailers.map(({ id, body }) => (
        <YesNo
          key={id}
          question={words.state.isCoupled(body.name)}
          value={state.trailers_on.includes(id)}
          onChange={(on) => onState({ ...state, trailers_on: on ? [id] : [] })}
        />
      ))}
      {book.people.map((person) => (
        <YesNo
          key={person.id}
          question={words.state.isAboard(person.body.name)}
          value={state.seats.some((load) => load.person_id === person.id)}
          onChange={(aboard) => onState(withPerson(book, state, person.id, aboard))}
        />
      ))}
      {book.items
        .filter((item) => item.body.nature === "load")
        .map((item) => (
          <YesNo
            key={item.id}
            question={words.state.isAboard(item.body.name)}
            value={!state.items_away.includes(item.id)}
            onChange={(aboard) => onState(withItem(state, item.id, aboard))}
          />
        ))}
    </>
  );
}

interface TankLevelProps {
  readonly book: Book;
  readonly state: State;
  readonly tankId: string;
  readonly onState: (state: State) => void;
}

/** A level typed in litres; what was typed stays in the field, the state follows when it can be read. */
function TankLevelField({ book, state, tankId, onState }: TankLevelProps): JSX.Element {
  const tank = book.tanks.find((one) => one.id === tankId);
  const capacity_l: number = tank?.body.capacity_l ?? 1;
  const [typed, setTyped] = useState<TypedNumber>({ text: "", unit: "L" });
  const read = readTyped(typed, {
    dimension: "volume",
    low: 0,
    high: capacity_l,
    name: tank?.body.name ?? "",
  });
  const change = (next: TypedNumber) => {
    setTyped(next);
    const found = readTyped(next, { dimension: "volume", low: 0, high: capacity_l, name: "" });
    if (found.kind !== "ok") return;
    const level = found.base / capacity_l;
    const tanks = state.tanks.map((one) =>
      one.tank_id === tankId ? { ...one, level, level_u: TYPED_U, known_from: "typed" as const } : one,
    );
    onState({ ...state, tanks });
  };
  return (
    <NumberField
      label={tank?.body.name ?? ""}
      hint={words.state.fuel(words.state.asLogged, levelText(book, state, tankId))}
      value={typed}
      units={["L", "gal_us", "gal_imp"]}
      onChange={change}
      error={read.kind === "wrong" ? read.message : null}
    />
  );
}

const TYPED_U = 0.05; // a level that somebody read off and typed, as a share of the tank (assumed)

function empty(book: Book): boolean {
  return book.tanks.length === 0 && book.people.length === 0 && book.trailers.length === 0;
}

function levelText(book: Book, state: State, tankId: string): string {
  const tank = book.tanks.find((one) => one.id === tankId);
  const level = state.tanks.find((one) => one.tank_id === tankId);
  const capacity_l: number | null = tank?.body.capacity_l ?? null;
  if (!level || capacity_l === null) return words.state.unknown;
  if (level.known_from === "prior") return words.state.unknown;
  return `${litres(level.level * capacity_l)} ± ${Math.round(twoSided(level.level_u) * capacity_l)}`;
}

function coupledText(book: Book, state: State): string {
  const on = trailerIn(book, state.trailers_on);
  return on ? words.state.coupled(on.body.name) : words.state.noTrailer;
}

function personName(book: Book, id: string | null): string {
  return book.people.find((one) => one.id === id)?.body.name ?? words.state.someone;
}

function withPerson(book: Book, state: State, id: string, aboard: boolean): State {
  const seats = state.seats.filter((load) => load.person_id !== id);
  if (!aboard) return { ...state, seats };
  const person = book.people.find((one) => one.id === id);
  const free = book.seats.find((seat) => !seats.some((load) => load.seat_id === seat.id));
  const usual = book.seats.find((seat) => seat.id === person?.body.usual_seat_id);
  const seat = usual && !seats.some((load) => load.seat_id === usual.id) ? usual : free;
  if (!person || !seat) return state;
  const load = { seat_id: seat.id, mass_kg: person.body.mass_kg ?? 0, mass_u_kg: person.body.mass_u_kg ?? 3 };
  return { ...state, seats: [...seats, { ...load, person_id: id }] };
}

function withItem(state: State, id: string, aboard: boolean): State {
  const rest = state.items_away.filter((one) => one !== id);
  return { ...state, items_away: aboard ? rest : [...rest, id] };
}
