/** Something differs from the day's state while it stands on the deck: one touch each, and one to take it back. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Book, State } from "@/services/answers";
import { Row } from "@/ui/parts/row";
import { occupant } from "@/ui/parts/stops";
import { words } from "@/ui/text/weigh";
import { differ, type Visit } from "./visit";

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

export function Different(props: DifferentProps): JSX.Element | null {
  const [open, setOpen] = useState(false);
  const options = optionsOf(props);
  if (options.length === 0) return null;
  const same = options.every((one) => !one.on);
  return (
    <>
      <Row label={words.different} figure={same ? words.asBefore : ""} onTouch={() => setOpen(!open)} />
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
    </>
  );
}

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
  return [...trailerOptions(props), ...out];
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
