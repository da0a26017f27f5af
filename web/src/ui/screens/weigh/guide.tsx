/** What the app says before the vehicle rolls off: the reading that would settle a doubt, or the one to repeat. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Book, Guidance, OnDeck, State } from "@/services/answers";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { deckAxles, occupant, stopTold } from "@/ui/parts/stops";
import { kg } from "@/ui/text/figures";
import { ratingName } from "@/ui/text/ratings";
import { stopText, words } from "@/ui/text/weigh";
import { type Axle, choose, stopsOf, strikeOut, takeBack, type Visit } from "./visit";

export interface GuideProps {
  readonly book: Book;
  readonly visit: Visit;
  readonly state: State;
  readonly found: OnDeck;
  readonly onVisit: (visit: Visit) => void;
}

export function Guide(props: GuideProps): JSX.Element | null {
  const { found, visit } = props;
  const told = useLater(found);
  if (!told) return null;
  if (!found.comparison.visit.agree)
    return <Disagree {...props} told={told} p={found.comparison.visit.p} key={visit.readings.length} />;
  return <Next {...props} told={told} />;
}

/** Reckoned after the verdicts are on the screen, for they must not wait for it. */
function useLater(found: OnDeck): Guidance | null {
  const [told, setTold] = useState<{ readonly of: OnDeck; readonly guidance: Guidance } | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setTold({ of: found, guidance: found.guide() }), 0);
    return () => clearTimeout(timer);
  }, [found]);
  return told?.of === found ? told.guidance : null;
}

interface ToldProps extends GuideProps {
  readonly told: Guidance;
}

/** One more reading that would settle a doubt, a touch away; or the plain statement that none would. */
function Next({ told, visit, state, onVisit }: ToldProps): JSX.Element | null {
  if (told.far.length > 0) {
    const far = told.far.map((row) => ratingName(row, null).toLowerCase());
    return <Notice>{words.guide.far(far)}</Notice>;
  }
  const open = toRead(visit, state);
  const best =
    visit.form === "single_deck" ? told.stops[0] : told.stops.find(({ axles }) => open.has(key(axles)));
  // the usual stops of several decks or pads come first: they are read at once
  if (told.doubtful.length === 0 || (!best && open.size > 0)) return null;
  const names = told.doubtful.map((row) => ratingName(row, null).toLowerCase());
  if (!best) return <p class="guide">{words.guide.none(names)}</p>;
  const on_deck = deckAxles(best.axles) as Axle[];
  return (
    <Row
      label={words.guide.next(
        stopText(on_deck, best.uncoupled).toLowerCase(),
        ratingName(best.row, null).toLowerCase(),
      )}
      note={best.chance === null ? words.guide.open : words.guide.chance(best.chance)}
      onTouch={() => onVisit(choose(visit, { on_deck, uncoupled: best.uncoupled }))}
    />
  );
}

/** Usual stops of several decks or pads that have no figure yet; of one deck any further stop can be made. */
function toRead({ form, readings }: Visit, state: State): ReadonlySet<string> {
  if (form === "single_deck") return new Set();
  const done = new Set(readings.filter((one) => !one.struck_out).map((one) => key(one.on_deck)));
  const usual = stopsOf(state.trailers_on.length > 0, form).map(({ on_deck }) => key(on_deck));
  return new Set(usual.filter((one) => !done.has(one)));
}

function key(axles: readonly string[]): string {
  return deckAxles(axles).sort().join("+");
}

/** The reading to take again, and what may have slipped: questions, each a way back to the figure, nothing applied. */
function Disagree(props: ToldProps & { readonly p: number | null }): JSX.Element {
  const { told, visit, book, state, p, onVisit } = props;
  const again = visit.readings.find((one) => one.id === told.repeat_id);
  const towing = state.trailers_on.length > 0;
  return (
    <div>
      <Notice tone="warn">{words.disagree(p)}</Notice>
      {again ? (
        <Row
          label={words.guide.repeat(stopTold(book, state.seats, again).toLowerCase())}
          note={words.guide.repeatNote(kg(again.value_kg))}
          onTouch={() => onVisit(strikeOut(visit, again.id, words.readAgain, towing))}
        />
      ) : null}
      {told.slips.length > 0 ? <p class="hint">{words.guide.slips}</p> : null}
      {told.slips.slice(0, MOST_QUESTIONS).map((slip) => {
        const reading = visit.readings.find((one) => one.id === slip.reading_id);
        if (!reading) return null;
        return (
          <Row
            key={`${slip.reading_id}${slip.kind}${slip.value_kg}${slip.axles.join()}${slip.part_id ?? ""}`}
            label={question(props, slip, reading)}
            note={words.guide.typeAgain}
            onTouch={() => onVisit(takeBack(visit, reading.id))}
          />
        );
      })}
    </div>
  );
}

const MOST_QUESTIONS = 4;

function question(
  { book, state }: GuideProps,
  slip: Guidance["slips"][number],
  reading: Visit["readings"][number],
): string {
  const stop = stopTold(book, state.seats, reading);
  const [digits, unit] = reading.typed;
  const typed = `${digits} ${unit}`;
  if (slip.kind === "digits_swapped") return words.guide.swapped(stop, typed, kg(slip.value_kg));
  if (slip.kind === "pounds") return words.guide.pounds(stop, digits, kg(slip.value_kg));
  if (slip.kind === "somebody_out") {
    const seat = (slip.part_id ?? "").split(":")[0] as string;
    return words.guide.out(stop, occupant(book, state.seats, seat));
  }
  if (slip.kind === "uncoupled") return words.guide.uncoupled(stop);
  return words.guide.axles(typed, stopText(deckAxles(slip.axles)).toLowerCase(), stop.toLowerCase());
}
