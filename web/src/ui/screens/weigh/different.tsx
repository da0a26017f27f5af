/** Something differs from the day's state while it stands on the deck: one touch each, and one to take it back. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Book, State } from "@/services/answers";
import { ChoiceField } from "@/ui/parts/forms";
import { Row } from "@/ui/parts/row";
import { occupant } from "@/ui/parts/stops";
import { words as bridgeWords } from "@/ui/text/bridge";
import { words } from "@/ui/text/weigh";
import type { ScaleForm, Side } from "./standing";
import { chooseSide, differ, layOut, type Visit } from "./visit";

export interface DifferentProps {
  readonly book: Book;
  readonly state: State;
  readonly visit: Visit;
  readonly onVisit: (visit: Visit) => void;
  /** The log has no trailer on, but there is one. */
  readonly onCoupled: (trailer_id: string) => void;
}

interface Option {
  readonly id: string;
  readonly label: string;
  readonly on: boolean;
  readonly touch: () => void;
}

export function Different(props: DifferentProps): JSX.Element {
  const [open, setOpen] = useState(false);
  const options = optionsOf(props);
  const same = options.every((one) => !one.on);
  return (
    <>
      <Row label={words.different} said={same ? words.asBefore : ""} onTouch={() => setOpen(!open)} />
      {open ? (
        <div class="choice stops">
          <div class="choice-options" role="group" aria-label={words.different}>
            {options.map(({ id, label, on, touch }) => (
              <button key={id} type="button" aria-pressed={on} onClick={touch}>
                {label}
              </button>
            ))}
          </div>
        </div>
      ) : null}
      {open && props.visit.form === "pads" ? (
        <div class="stops">
          <ChoiceField
            label={bridgeWords.side}
            value={props.visit.side}
            options={SIDES.map((side) => ({ value: side, label: bridgeWords.sides[side] }))}
            onChange={(side) => props.onVisit(chooseSide(props.visit, side as Side))}
          />
        </div>
      ) : null}
    </>
  );
}

const SIDES: readonly Side[] = ["both", "left", "right"];

function optionsOf(props: DifferentProps): Option[] {
  const { book, state, visit, onVisit } = props;
  const out = state.seats.map(({ seat_id }): Option => {
    const on = visit.seats_empty.includes(seat_id);
    const seats_empty = on
      ? visit.seats_empty.filter((one) => one !== seat_id)
      : [...visit.seats_empty, seat_id];
    const label = words.personOut(occupant(book, state.seats, seat_id));
    return { id: seat_id, label, on, touch: () => onVisit(differ(visit, { seats_empty })) };
  });
  return [...trailerOptions(props), ...out, ...layoutOptions(props)];
}

/** The scale is no single deck: several at once, or pads for single wheels, or one pad that is moved. */
function layoutOptions({ state, visit, onVisit }: DifferentProps): Option[] {
  const towing = state.trailers_on.length > 0;
  const form = (id: ScaleForm, label: string): Option => {
    const on = visit.form === id;
    const touch = () => onVisit(layOut(visit, { form: on ? "single_deck" : id }, towing));
    return { id, label, on, touch };
  };
  const options = [form("multi_deck", bridgeWords.decks), form("pads", bridgeWords.pads)];
  if (visit.form !== "pads") return options;
  const touch = () => onVisit(layOut(visit, { one_pad: !visit.one_pad }, towing));
  return [...options, { id: "one_pad", label: bridgeWords.pad, on: visit.one_pad, touch }];
}

function trailerOptions({ book, state, visit, onVisit, onCoupled }: DifferentProps): Option[] {
  if (state.trailers_on.length > 0) {
    const on = visit.uncoupled;
    const touch = () => onVisit(differ(visit, { uncoupled: !on }));
    return [{ id: "uncoupled", label: words.trailerOff, on, touch }];
  }
  return book.trailers.map(({ id, body }) => ({
    ...{ id, label: words.trailerOn(body.name), on: false },
    touch: () => onCoupled(id),
  }));
}
