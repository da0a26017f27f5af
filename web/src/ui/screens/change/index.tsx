/** The least change: what to move, leave or let out so that every rating is under, redone as things are refused. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Book, State } from "@/services/answers";
import type { LeastChange, Question } from "@/services/change";
import { Action, Actions } from "@/ui/parts/action";
import { Cautions } from "@/ui/parts/cautions";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import { type BodyFacts, type Frame, shapeOf, trailerShapeOf } from "@/ui/parts/drawing/frame";
import { Lanes, lanesHeight } from "@/ui/parts/drawing/lanes";
import { arrowsOf, tanksOf } from "@/ui/parts/drawing/loads";
import { axlePlaces, ROW_OF, trailerFacts, trailerIn } from "@/ui/parts/drawing/towed";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { editsOf } from "@/ui/screens/plan/edits";
import { Undo } from "@/ui/screens/plan/undo";
import { words } from "@/ui/text/change";
import { withReach } from "@/ui/text/figures";
import { ratingName } from "@/ui/text/ratings";
import { words as states } from "@/ui/text/states";
import { Answer } from "./answer";
import { Choices, Kept } from "./choices";
import { lanesOf, MoveList, nameOf, Staying, slotWords } from "./moves";
import { useQuestion } from "./question";
import { BeforeAndAfter } from "./ratings";
import { type Solved, type Solving, useSolved } from "./solved";
import type { Asked } from "./wish";
import { isSome, logToday, writePlan } from "./write";

interface Props {
  readonly book: string;
  /** The state to begin with: a weighing, a trailer that is on, or "full". */
  readonly from?: string;
}

export default function ChangeScreen({ book, from = "now" }: Props): JSX.Element | null {
  const view = useBook(book);
  return view ? <Change view={view} from={from} /> : null;
}

function Change({ view, from }: { readonly view: BookView; readonly from: string }): JSX.Element {
  const { book, terms } = view;
  const { asked, change, question, ...rest } = useQuestion(view, from);
  const solving = useSolved(question);
  const solved = question ? solving.solved : null;
  const [done, setDone] = useState(false);
  const edits = editsOf(useServices().records, view.id);
  const put = (next: Asked, written = false) => {
    setDone(written);
    change(next);
  };
  const { refused, state } = asked;
  const refuse = (subject_id: string) => put({ ...asked, refused: [...refused, { subject_id }] });
  const takeBack = (id: string) => put({ ...asked, refused: refused.filter((one) => one.subject_id !== id) });
  const wroteDown = () => put({ ...asked, state: state === "weighed" ? "now" : state }, true);
  const form = { book, asked, ...rest, onChange: put };
  const filled = state !== "now" && state !== "weighed";
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      {solved ? <Seen view={view} {...solved} /> : null}
      {question ? null : <Unreached view={view} state={rest.state} />}
      <div aria-live="polite">
        {done && edits.undone.value.at(-1)?.label !== words.step ? <Notice>{words.written}</Notice> : null}
        {done && [edits.steps, edits.undone].some((one) => one.value.at(-1)?.label === words.step) ? (
          <Undo view={view} edits={edits} />
        ) : null}
        {solved ? <Answer {...solved} terms={terms} /> : null}
        <Progress {...solving} />
      </div>
      <div class="columns">
        <div>
          {solved ? (
            <MoveList book={book} {...solved} terms={terms} filled={filled} onRefuse={refuse} />
          ) : null}
          <Staying book={book} ids={refused.map((one) => one.subject_id)} onTakeBack={takeBack} />
        </div>
        <div class="change-beside">
          {solved ? <BeforeAndAfter change={solved.change} terms={terms} /> : null}
          {question ? <LeftOut view={view} question={question} day={state === "weighed"} /> : null}
        </div>
        <div>
          <Choices {...form} />
          <Kept {...form} />
        </div>
      </div>
      <Cautions />
      {solved && !solving.busy ? (
        <Doing view={view} solved={solved} filled={filled} onDone={wroteDown} />
      ) : null}
    </Screen>
  );
}

function Progress({ busy, round, trouble }: Solving): JSX.Element | null {
  if (trouble) return <Notice tone="warn">{trouble}</Notice>;
  return busy ? <p class="hint">{round > 1 ? words.round(round) : words.doing}</p> : null;
}

interface SeenProps extends Solved {
  readonly view: BookView;
}

/** The beam with the loads where they are, and each move in a lane of its own. */
function Seen({ view: { book }, question: { state }, change }: SeenProps): JSX.Element {
  const body = (book.vehicle?.body ?? {}) as BodyFacts;
  const towed = trailerIn(book, state.trailers_on);
  const facts = towed ? trailerFacts(book, towed) : null;
  const shape = shapeOf(body);
  const trailer = facts ? trailerShapeOf(facts, shape) : null;
  const lanes = lanesOf(book, change.moves);
  return (
    <Beam
      body={body}
      title={words.drawing}
      trailer={facts}
      supports={supportsOf(book, facts, change)}
      arrows={arrowsOf(book, towed?.id ?? null).filter((one) => !state.items_away.includes(one.id))}
      tanks={tanksOf(book, state, { trailer_id: towed?.id ?? null })}
      {...(lanes.length > 0
        ? {
            over: {
              height: lanesHeight(lanes),
              draw: (frame: Frame) => <Lanes {...{ lanes, frame, shape, trailer }} />,
            },
          }
        : {})}
    />
  );
}

function supportsOf(
  book: Book,
  facts: ReturnType<typeof trailerFacts> | null,
  { after }: LeastChange,
): Support[] {
  return axlePlaces(book.vehicle?.body ?? {}, facts).map((place) => {
    const found = after.find((one) => one.rating === ROW_OF[place.id]);
    return {
      ...place,
      figure: found ? withReach(found.value_kg, found.reach_kg) : "?",
      label: place.id,
    };
  });
}

function Unreached({ view, state }: { readonly view: BookView; readonly state: State }): JSX.Element {
  const towed = trailerIn(view.book, state.trailers_on);
  return (
    <>
      <Notice>{towed ? states.needLever(towed.body.name) : states.needBase}</Notice>
      <Row label={words.toPlan} to={`/b/${view.id}/plan`} />
    </>
  );
}

interface LeftOutProps {
  readonly view: BookView;
  readonly question: Question;
  /** The state is that of a weighing. */
  readonly day: boolean;
}

/** What the figures rest on; places and ratings that were left out, and why. */
function LeftOut({ view, question, day }: LeftOutProps): JSX.Element {
  const { book, terms } = view;
  const name = (rating: string) => ratingName(rating, terms);
  return (
    <>
      <p class="hint">{words.rests(book.weighings.length > 0, day)}</p>
      {question.unrated.map(({ subject_id, slot, rating }) => (
        <p key={`${subject_id}${slot}`} class="hint">
          {words.unrated(nameOf(book, subject_id), slotWords(book, subject_id, slot), name(rating))}
        </p>
      ))}
      {question.unknown.length > 0 ? (
        <>
          <p class="hint">{words.unknown(question.unknown.map(name))}</p>
          {view.role === "co_driver" ? null : <Row label={words.toPlates} to={`/b/${view.id}/plates`} />}
        </>
      ) : null}
      {question.missing.length > 0 ? <p class="hint">{states.notCounted(question.missing.length)}</p> : null}
    </>
  );
}

interface DoingProps {
  readonly view: BookView;
  readonly solved: Solved;
  readonly filled: boolean;
  readonly onDone: () => void;
}

/** Two ways to keep it: in the plan for good, or in today's log; places are the plan's either way. */
function Doing({ view, solved, filled, onDone }: DoingProps): JSX.Element | null {
  const { records, clock } = useServices();
  const { moves } = solved.change;
  const edits = editsOf(records, view.id);
  const kinds = new Set(moves.map((one) => one.choice.kind));
  const mayPlan = view.role !== "co_driver";
  const some = moves.some((one) => isSome(view.book, one));
  const inLog = moves.some((one) => one.choice.kind !== "slot" && (mayPlan || !isSome(view.book, one)));
  const today = async () => {
    const apart = mayPlan ? await writePlan(view.book, edits, moves, null) : new Map();
    await logToday(view.book, records, view.id, moves, apart);
    onDone();
  };
  const plan = async () => {
    await writePlan(view.book, edits, moves, clock.now().slice(0, 10));
    onDone();
  };
  const offersToday = inLog && !filled && view.role !== "fitter";
  const offersPlan = mayPlan && (kinds.has("slot") || kinds.has("off"));
  if (!offersToday && !offersPlan) return null;
  return (
    <>
      {offersToday && (some || kinds.has("slot")) && !mayPlan ? <p class="hint">{words.notYours}</p> : null}
      {offersPlan && (kinds.has("out") || kinds.has("pour")) ? <p class="hint">{words.byHand}</p> : null}
      <Actions>
        {offersToday ? <Action label={words.today} onTouch={today} /> : null}
        {offersPlan ? (
          <Action label={words.plan} kind={offersToday ? "plain" : "primary"} onTouch={plan} />
        ) : null}
      </Actions>
    </>
  );
}
