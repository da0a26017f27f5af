/** On the deck: touch what stands on it, type the figure, take the reading. Nothing else is asked. */
import type { ComponentChildren, JSX } from "preact";
import type { Book, State } from "@/services/answers";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import { axlePlaces, trailerFacts, trailerIn } from "@/ui/parts/drawing/towed";
import { ChoiceField, NumberField, type TypedNumber, YesNo } from "@/ui/parts/forms";
import { stopTold } from "@/ui/parts/stops";
import { figure } from "@/ui/text/figures";
import { stopText, words } from "@/ui/text/weigh";
import type { Choice } from "@/units/typed";
import { Different } from "./different";
import { Taken } from "./taken";
import {
  type Axle,
  choose,
  isStop,
  type Stop,
  stopsOf,
  strikeOut,
  takeBack,
  touch,
  type Visit,
} from "./visit";
import "./deck.css";

export interface DeckProps {
  readonly book: Book;
  readonly visit: Visit;
  /** The day's state as far as it is needed here: who sits where, what is coupled. */
  readonly state: State;
  readonly error: string | null;
  readonly ask: readonly Choice[] | null;
  readonly onVisit: (visit: Visit) => void;
  readonly onCoupled: (trailer_id: string) => void;
  /** What the readings say so far, under the drawing. */
  readonly children?: ComponentChildren;
}

export function Deck(props: DeckProps): JSX.Element {
  const { book, visit, state, error, ask, onVisit } = props;
  const towing = state.trailers_on.length > 0;
  const named = (one: Pick<Visit["readings"][number], "on_deck" | "differs">) =>
    stopTold(book, state.seats, one);
  return (
    <>
      <Drawing {...props} />
      {props.children}
      <Stops visit={visit} towing={towing} onChoose={(stop) => onVisit(choose(visit, stop))} />
      {visit.on_deck.length > 0 ? (
        <>
          <NumberField
            label={named({ on_deck: visit.on_deck, differs: visit })}
            value={{ text: visit.text, unit: visit.unit }}
            units={["kg", "t", "lb"]}
            onChange={({ text, unit }: TypedNumber) => onVisit({ ...visit, text, unit })}
            error={error}
            ask={ask}
            large
            autofocus
          />
          <Different {...props} />
        </>
      ) : null}
      <Doubt visit={visit} name={named} towing={towing} onVisit={onVisit} />
      {visit.readings.map((reading) => (
        <Taken
          key={reading.id}
          reading={reading}
          name={named(reading)}
          onTakeBack={() => onVisit(takeBack(visit, reading.id))}
          onStrikeOut={(reason) => onVisit(strikeOut(visit, reading.id, reason, towing))}
        />
      ))}
    </>
  );
}

function Drawing({ book, visit, state, onVisit }: DeckProps): JSX.Element {
  const body = book.vehicle?.body ?? {};
  const towed = trailerIn(book, state.trailers_on);
  const how = { coupled: !visit.uncoupled, dim: !visit.on_deck.includes("trailer") };
  const trailer = towed ? trailerFacts(book, towed, how) : null;
  const supports = axlePlaces(body, trailer, body.rear_axles === "independent_pair").map(
    (place): Support => ({
      ...place,
      figure: figureAt(visit, place.id),
      label: words.axle(place.id),
      on_deck: standsOn(visit, place.id),
    }),
  );
  return (
    <Beam
      body={body}
      title={words.touchAxles}
      trailer={trailer}
      supports={supports}
      onSupport={(id) => onVisit(touch(visit, id as Axle))}
    />
  );
}

/** The usual stops by name: one touch where the drawing needs two. */
function Stops({
  visit,
  towing,
  onChoose,
}: {
  readonly visit: Visit;
  readonly towing: boolean;
  readonly onChoose: (stop: Stop) => void;
}): JSX.Element {
  const stops = stopsOf(towing, visit.form);
  const single = visit.form === "single_deck";
  const here = stops.findIndex((stop) => isStop(visit, stop));
  const hint = towing && single && stops[here] ? hintOf(stops[here]) : null;
  return (
    <div class={stops.length > 3 ? "stops stops-many" : "stops"}>
      <ChoiceField
        label={words.whichStop}
        value={String(here)}
        options={stops.map((stop, k) => ({
          value: String(k),
          label: chipText(stop, towing),
        }))}
        onChange={(k) => onChoose(stops[Number(k)]!)}
      />
      {hint ? <p class="hint">{hint}</p> : null}
    </div>
  );
}

/** Short enough for two in a row. */
function chipText({ on_deck, uncoupled }: Stop, towing: boolean): string {
  if (uncoupled) return words.chip.alone;
  return towing && on_deck.length === 3 ? words.chip.all : stopText(on_deck);
}

function hintOf({ on_deck, uncoupled }: Stop): string | null {
  if (uncoupled) return words.stopHint.alone;
  if (on_deck.length === 3) return words.stopHint.all;
  return on_deck.length === 2 ? words.stopHint.trailer_off : null;
}

interface DoubtProps {
  readonly visit: Visit;
  readonly name: (reading: Visit["readings"][number]) => string;
  readonly towing: boolean;
  readonly onVisit: (visit: Visit) => void;
}

/** Two figures for one stop, too far apart for this bridge: both count unless a person sets the first aside. */
function Doubt({ visit, name, towing, onVisit }: DoubtProps): JSX.Element | null {
  const earlier = visit.readings.find((one) => one.id === visit.doubted);
  const latest = visit.readings.at(-1);
  if (!earlier || !latest) return null;
  return (
    <div role="status">
      <YesNo
        question={words.doubted(name(earlier), earlier.value_kg, latest.value_kg)}
        value={null}
        yes={words.setAside(earlier.value_kg)}
        no={words.keepBoth}
        onChange={(aside) =>
          onVisit(aside ? strikeOut(visit, earlier.id, words.readAgain, towing) : { ...visit, doubted: null })
        }
      />
    </div>
  );
}

function standsOn(visit: Visit, id: string): boolean {
  const on: readonly string[] = visit.on_deck;
  const wheels = (axle: string) => on.includes(`${axle}_left`) || on.includes(`${axle}_right`);
  if (on.includes(id) || wheels(id)) return true;
  return id.startsWith("rear_") && (on.includes("rear") || wheels("rear"));
}

/** The latest figure of this axle alone, or of its two wheels together. */
function figureAt(visit: Visit, id: string): string {
  const wheels = (["left", "right"] as const).map((side) => latest(visit, `${id}_${side}`));
  const [left, right] = wheels;
  const value_kg = latest(visit, id) ?? (left != null && right != null ? left + right : null);
  return value_kg === null ? "?" : figure(value_kg);
}

function latest(visit: Visit, id: string): number | null {
  const alone = visit.readings.filter(
    (one) => !one.struck_out && one.on_deck.length === 1 && one.on_deck[0] === id,
  );
  return alone.at(-1)?.value_kg ?? null;
}
