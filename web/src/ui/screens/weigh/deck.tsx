/** On the deck: touch the axles, type the figure, take the reading. Nothing else is asked. */
import type { JSX } from "preact";
import type { Book } from "@/services/answers";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import { NumberField, type TypedNumber } from "@/ui/parts/forms";
import { figure } from "@/ui/text/figures";
import { words } from "@/ui/text/weigh";
import type { Choice } from "@/units/typed";
import { Taken } from "./taken";
import { type Axle, stopName, type TakenReading, type Visit } from "./visit";

export interface DeckProps {
  readonly book: Book;
  readonly visit: Visit;
  readonly error: string | null;
  readonly ask: readonly Choice[] | null;
  readonly onAxle: (axle: Axle) => void;
  readonly onText: (typed: TypedNumber) => void;
  readonly onTakeBack: (id: string) => void;
  readonly onStrikeOut: (id: string, reason: string | null) => void;
}

export function Deck(props: DeckProps): JSX.Element {
  const { book, visit, error, ask, onAxle, onText, onTakeBack, onStrikeOut } = props;
  const body = book.vehicle?.body ?? {};
  const wheelbase_m: number = body.wheelbase_m ?? 3.2;
  const supports: Support[] = [support(visit, "front", 0), support(visit, "rear", wheelbase_m)];
  return (
    <>
      <Beam body={body} title={words.touchAxles} supports={supports} onSupport={(id) => onAxle(id as Axle)} />
      <p class="hint">{words.touchAxles}</p>
      {visit.readings.map((reading) => (
        <Taken
          key={reading.id}
          reading={reading}
          onTakeBack={() => onTakeBack(reading.id)}
          onStrikeOut={(reason) => onStrikeOut(reading.id, reason)}
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
