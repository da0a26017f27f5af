/** One typed question: may this go there? Answered in a sentence, with every rating after it. */
import type { JSX } from "preact";
import { type Asked, askThere, type Held } from "@/services/room";
import { ChoiceField, NumberField } from "@/ui/parts/forms";
import { Section } from "@/ui/parts/section";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { kg } from "@/ui/text/figures";
import type { Terms } from "@/ui/text/ratings";
import { limitName, words } from "@/ui/text/room";
import { type Named, type Place, placeWords, type Question, readMass, readPlace } from "./places";

interface Props {
  readonly held: Held;
  readonly named: readonly Named[];
  readonly question: Question;
  readonly place: Place;
  readonly terms: Terms | null;
  readonly onChange: (question: Question) => void;
  readonly onPlace: (place: Place) => void;
}

export function Asking({ held, named, question, place, terms, onChange, onPlace }: Props): JSX.Element {
  const mass = readMass(question);
  const at = readPlace(question);
  const load = mass.kind === "ok" && at.kind === "ok" ? { ...question, mass_kg: mass.base } : null;
  const found = load ? askThere(held, place.where, place.x_m, load) : null;
  const chosen = named.find((one) => one.where === place.where && Math.abs(one.x_m - place.x_m) < 0.005);
  const wrong = (read: typeof mass) => (read.kind === "wrong" ? read.message : null);
  const asks = (read: typeof mass) => (read.kind === "ask" ? read.choices : null);
  return (
    <Section title={words.question}>
      <NumberField
        label={words.mass}
        value={question.mass}
        units={["kg", "lb"]}
        onChange={(value) => onChange({ ...question, mass: value })}
        error={wrong(mass)}
        ask={asks(mass)}
      />
      <ChoiceField
        label={words.where}
        value={chosen?.id ?? ""}
        options={named.map(({ id, label }) => ({ value: id, label }))}
        onChange={(id) => onPlace(named.find((one) => one.id === id)!)}
      />
      <NumberField
        label={question.where === "trailer" ? words.xi : words.x}
        value={question.x}
        units={["m", "mm", "ft"]}
        hint={words.xHint}
        onChange={(x) => onChange({ ...question, x, measured: true })}
        error={wrong(at)}
        ask={asks(at)}
      />
      <ChoiceField
        label={words.knownBy}
        value={question.known_by}
        options={Object.entries(words.known).map(([value, label]) => ({ value, label }))}
        onChange={(known_by) => onChange({ ...question, known_by })}
      />
      {load && found ? (
        <Answer found={found} mass={kg(load.mass_kg)} place={placeWords(named, place)} terms={terms} />
      ) : null}
    </Section>
  );
}

interface AnswerProps {
  readonly found: Asked;
  readonly mass: string;
  readonly place: string;
  readonly terms: Terms | null;
}

function Answer({ found, mass, place, terms }: AnswerProps): JSX.Element {
  const { room, after } = found;
  const is = ({ side, verdict }: (typeof after)[number]) =>
    room.binds?.side === side && room.binds.rating === verdict.rating;
  const first = after.find(is) ?? null;
  const others = after.filter(
    (one) => one !== first && (one.verdict.word === "over" || one.verdict.word === "cannot_tell"),
  );
  return (
    <div role="status">
      <p class="answer">
        <strong class="room-answer">{words.answer(mass, place, first, room.most_kg, terms)}</strong>
      </p>
      {others.length > 0 ? (
        <p>
          {words.also(others.map(({ side, verdict }) => limitName({ side, rating: verdict.rating }, terms)))}
        </p>
      ) : null}
      <h3>{words.after}</h3>
      {after
        .filter((one) => one.side === "upper")
        .map(({ verdict }) => (
          <VerdictRow
            key={verdict.rating}
            judged={{ verdict, source: "plan", why: null }}
            terms={terms}
            quiet
          />
        ))}
    </div>
  );
}
