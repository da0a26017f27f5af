/** Room left: how much may still go where before which rating is reached, and what a typed mass would do there. */
import type { ComponentChildren, JSX } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { type Book, fullState, presentAt, type State } from "@/services/answers";
import { curveOf, type Held, heldIn, roomThere } from "@/services/room";
import { Cautions } from "@/ui/parts/cautions";
import { type BodyFacts, shapeOf, trailerShapeOf } from "@/ui/parts/drawing/frame";
import { trailerFacts, trailerIn } from "@/ui/parts/drawing/towed";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { LevelsField, StateField } from "@/ui/parts/states";
import { words as planWords } from "@/ui/text/plan";
import { words } from "@/ui/text/room";
import { words as states } from "@/ui/text/states";
import { Own, reasonOf, Stretches, Unknown } from "./lists";
import { type Place, placesOf, placeWords, putAt, type Question, readPlace } from "./places";
import { Asking } from "./question";
import { endsOf, RoomBeam } from "./room_beam";

const EMPTY = { mass: { text: "", unit: "kg" }, known_by: "weighed" };

export default function RoomScreen({ book }: { readonly book: string }): JSX.Element | null {
  const view = useBook(book);
  return view ? <RoomPage view={view} /> : null;
}

function RoomPage({ view }: { readonly view: BookView }): JSX.Element {
  const { answers, clock } = useServices();
  const { book } = view;
  const now = clock.now();
  const [which, setWhich] = useState(() => presentAt(book, now).trailers_on[0] ?? "full");
  const [anyLevel, setAnyLevel] = useState(false);
  const state = useMemo(
    () => (which === "now" ? answers.stateAt(book, now) : fullWith(book, which)),
    [book, which],
  );
  const held = useMemo(() => heldIn(book, state, now.slice(0, 10), anyLevel), [book, state, anyLevel]);
  const choices = <Choices {...{ book, which, setWhich, anyLevel, setAnyLevel }} />;
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      {held ? (
        <Left {...{ view, state, held }}>{choices}</Left>
      ) : (
        <Missing {...{ view, state }}>{choices}</Missing>
      )}
      <Cautions />
    </Screen>
  );
}

interface ChoicesProps {
  readonly book: Book;
  readonly which: string;
  readonly setWhich: (which: string) => void;
  readonly anyLevel: boolean;
  readonly setAnyLevel: (any: boolean) => void;
}

function Choices({ book, which, setWhich, anyLevel, setAnyLevel }: ChoicesProps): JSX.Element {
  return (
    <>
      <StateField trailers={book.trailers} value={which} onChange={setWhich} />
      {book.tanks.length > 0 ? <LevelsField worst={anyLevel} onChange={setAnyLevel} /> : null}
    </>
  );
}

function fullWith(book: Book, which: string): State {
  const trailer_id = book.trailers.find((one) => one.id === which)?.id ?? null;
  return fullState({ book, trailer_id });
}

interface Props {
  readonly view: BookView;
  readonly state: State;
  readonly children: ComponentChildren;
}

function Missing({ view, state, children }: Props): JSX.Element {
  const towed = trailerIn(view.book, state.trailers_on);
  return (
    <>
      <Notice>{towed ? states.needLever(towed.body.name) : states.needBase}</Notice>
      <Row label={planWords.title} to={`/b/${view.id}/plan`} />
      {children}
    </>
  );
}

function Left({ view, state, held, children }: Props & { readonly held: Held }): JSX.Element {
  const { book, terms } = view;
  const towed = trailerIn(book, state.trailers_on);
  const body = (book.vehicle?.body ?? {}) as BodyFacts;
  const facts = towed ? trailerFacts(book, towed) : null;
  const trailer = facts ? trailerShapeOf(facts, shapeOf(body)) : null;
  const named = placesOf(book, trailer);
  const { question, change } = useQuestion(view.id, named[0]!);
  const place = placeIn(question, trailer !== null) ?? named[0]!;
  const ends = useMemo(() => endsOf(body, trailer), [book, towed]);
  const curves = useMemo(
    () => ({
      vehicle: curveOf(held, "vehicle", ends.vehicle),
      trailer: ends.trailer ? curveOf(held, "trailer", ends.trailer) : [],
    }),
    [held, ends],
  );
  const room = roomThere(held, place.where, place.x_m);
  const told = placeWords(named, place);
  const put = (next: Place) => change(putAt(question, next));
  return (
    <>
      <RoomBeam
        body={body}
        trailer={trailer && facts}
        {...{ held, curves, place, terms }}
        told={words.most(room.most_kg)}
        onPlace={put}
      />
      <div class="answer">
        <strong>{words.most(room.most_kg)}</strong>{" "}
        {room.most_kg === null ? words.cannotSay(told) : words.mayGo(told, room.most_kg)}{" "}
        {reasonOf(held, room, terms)}
      </div>
      <p class="hint">{`${words.exact} ${words.restsOn(held.weighed)}`}</p>
      <div class="columns">
        <Asking {...{ held, named, question, place, terms }} onChange={change} onPlace={put} />
        <div>
          {children}
          <Stretches pieces={curves.vehicle} title={words.along} terms={terms} />
          {trailer ? <Stretches pieces={curves.trailer} title={words.alongTrailer} terms={terms} /> : null}
          <Own {...{ held, named, terms }} />
          <Unknown view={view} held={held} />
        </div>
      </div>
    </>
  );
}

/** A place on a trailer that is not on any more is none. */
function placeIn(question: Question, towed: boolean): Place | null {
  const read = readPlace(question);
  if (read.kind !== "ok" || (question.where === "trailer" && !towed)) return null;
  return { where: question.where, x_m: read.base };
}

/** What was asked survives a reload; it is dropped when the page is left, for nothing is to be saved. */
function useQuestion(book: string, start: Place) {
  const initial = putAt({ ...EMPTY, where: "vehicle", x: EMPTY.mass, measured: false }, start);
  const draft = useDraft<Question>(`room:${book}`, initial);
  const latest = useRef(draft);
  latest.current = draft;
  useEffect(() => () => void latest.current.drop(), []);
  return { question: draft.value, change: draft.change };
}
