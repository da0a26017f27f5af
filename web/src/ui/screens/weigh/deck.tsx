/** On the deck: touch the axles, type the figure, take the reading. Nothing else is asked. */
import type { JSX } from "preact";
import type { Book } from "@/services/answers";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import { NumberField, type TypedNumber } from "@/ui/parts/forms";
import { Row } from "@/ui/parts/row";
import { figure, kg } from "@/ui/text/figures";
import { words } from "@/ui/text/weigh";
import type { Choice } from "@/units/typed";
import type { Axle, TakenReading, Visit } from "./visit";

export interface DeckProps {
  readonly book: Book;
  readonly visit: Visit;
  readonly error: string | null;
  readonly ask: readonly Choice[] | null;
  readonly onAxle: (axle: Axle) => void;
  readonly onText: (typed: TypedNumber) => void;
  readonly onTakeBack: (id: string) => void;
}

export function Deck({ book, visit, error, ask, onAxle, onText, onTakeBack }: DeckProps): JSX.Element {
  const body = book.vehicle?.body ?? {};
  const wheelbase_m: number = body.wheelbase_m ?? 3.2;
  const supports: Support[] = [support(visit, "front", 0), support(visit, "rear", wheelbase_m)];
  return (
    <>
      <Beam body={body} title={words.touchAxles} supports={supports} onSupport={(id) => onAxle(id as Axle)} />
      <p class="hint">{words.touchAxles}</p>
      {visit.readings.map((reading) => (
        <Row
          key={reading.id}
          label={stopName(reading.on_deck)}
          figure={kg(reading.value_kg)}
          note={reading.struck_out ?? words.change}
          onTouch={() => onTakeBack(reading.id)}
        />
      ))}
      {visit.on_deck.length > 0 ? (
        <NumberField
          label={`${stopName(visit.on_deck)} ${words.onDeck}`}
          value={{ text: visit.text, unit: visit.unit }}
          units={["kg", "t", "lb"]}
          onChange={onText}
          error={error}
          ask={ask}
          large
          autofocus
        />
      ) : null}
    </>
  );
}

export function stopName(on_deck: readonly Axle[]): string {
  if (on_deck.length === 2) return words.stop.both;
  return on_deck[0] ? words.stop[on_deck[0]] : words.stop.none;
}

function support(visit: Visit, axle: Axle, x_m: number): Support {
  const taken = visit.readings.filter((one) => !one.struck_out && alone(one, axle)).at(-1);
  return {
    id: axle,
    x_m,
    figure: taken ? figure(taken.value_kg) : "?",
    label: words.stop[axle],
    on_deck: visit.on_deck.includes(axle),
  };
}

function alone(reading: TakenReading, axle: Axle): boolean {
  return reading.on_deck.length === 1 && reading.on_deck[0] === axle;
}
