/** At the weighbridge: on the deck, then rolled off, then saved. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { type Book, type Comparison, provisional, type State } from "@/services/answers";
import { Action, Actions } from "@/ui/parts/action";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Screen } from "@/ui/parts/screen";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { words } from "@/ui/text/weigh";
import { type Choice, readTyped } from "@/units/typed";
import { Deck } from "./deck";
import { type BridgeFacts, guessedInterval, weighingBody } from "./record";
import { RolledOff } from "./rolled_off";
import { newVisit, strikeOut, take, takeBack, touch, type Visit } from "./visit";

interface Draft {
  readonly visit: Visit;
  readonly rolled_off: boolean;
  readonly bridge: BridgeFacts;
  readonly ticket: string;
  readonly state: State | null;
}

const empty: Draft = {
  visit: newVisit,
  rolled_off: false,
  bridge: { name: "", interval_kg: null },
  ticket: "",
  state: null,
};

export default function WeighScreen({ book: bookId }: { readonly book: string }): JSX.Element | null {
  const view = useBook(bookId);
  const draft = useDraft<Draft>(`weigh:${bookId}`, empty);
  if (!view || !draft.ready) return null;
  return draft.value.rolled_off ? (
    <After view={view} draft={draft.value} change={draft.change} drop={draft.drop} />
  ) : (
    <OnDeck view={view} draft={draft.value} change={draft.change} />
  );
}

interface StepProps {
  readonly view: BookView;
  readonly draft: Draft;
  readonly change: (draft: Draft) => void;
}

function OnDeck({ view, draft, change }: StepProps): JSX.Element {
  const { clock, ids } = useServices();
  const [error, setError] = useState<string | null>(null);
  const [ask, setAsk] = useState<readonly Choice[] | null>(null);
  const { visit } = draft;
  const put = (next: Visit) => {
    setError(null);
    setAsk(null);
    change({ ...draft, visit: next });
  };
  const takeReading = () => {
    if (visit.on_deck.length === 0) return setError(words.needAxle);
    const value = { text: visit.text, unit: visit.unit };
    const read = readTyped(value, { dimension: "mass", low: 0, high: 200_000, name: words.figure });
    if (read.kind === "blank") return setError(words.needFigure);
    if (read.kind === "wrong") return setError(read.message);
    if (read.kind === "ask") return setAsk(read.choices);
    const reading = { on_deck: visit.on_deck, value_kg: read.base, typed: read.as_typed, struck_out: null };
    return put(take(visit, { id: ids(), ...reading }, clock.now()));
  };
  return (
    <Screen title={view.name} back={`/b/${view.id}`}>
      <Deck
        book={view.book}
        visit={visit}
        error={error}
        ask={ask}
        onAxle={(axle) => put(touch(visit, axle))}
        onText={({ text, unit }) => put({ ...visit, text, unit })}
        onTakeBack={(id) => put(takeBack(visit, id))}
        onStrikeOut={(id, reason) => put(strikeOut(visit, id, reason))}
      />
      <Verdicts view={view} draft={draft} />
      <Actions>
        {visit.readings.length > 0 ? (
          <Action
            label={words.rollOff}
            kind={visit.on_deck.length > 0 ? "plain" : "primary"}
            onTouch={() => change({ ...draft, rolled_off: true })}
          />
        ) : null}
        {visit.on_deck.length > 0 || visit.readings.length === 0 ? (
          <Action label={words.take} onTouch={takeReading} />
        ) : null}
      </Actions>
    </Screen>
  );
}

function Verdicts({ view, draft }: { readonly view: BookView; readonly draft: Draft }): JSX.Element | null {
  const found = useProvisional(view.book, draft);
  if (!found) return null;
  return (
    <div role="status">
      {found.visit.agree ? null : <Notice tone="warn">{words.disagree(found.visit.p ?? 0)}</Notice>}
      {found.day.map((judged) => (
        <VerdictRow key={judged.verdict.rating} judged={judged} terms={view.terms} />
      ))}
    </div>
  );
}

function useProvisional(book: Book, draft: Draft): Comparison | null {
  const { clock, answers } = useServices();
  const at = draft.visit.at ?? clock.now();
  const weighed = draft.visit.readings.length > 0;
  const state = useMemo(() => (weighed ? answers.stateAt(book, at) : null), [book, draft.visit.at, weighed]);
  return useMemo(() => {
    if (!state) return null;
    const body = weighingBody({ ...draft, at, zone: clock.zone(), state, confirmed: false, book });
    return provisional(book, { id: "now", kind: "weighing", rev: "now", body });
  }, [book, draft.visit, draft.bridge, state]);
}

function After({
  view,
  draft,
  change,
  drop,
}: StepProps & { readonly drop: () => Promise<void> }): JSX.Element {
  const { clock, records, answers, go } = useServices();
  const at = draft.visit.at ?? clock.now();
  const logged = useMemo(() => answers.stateAt(view.book, at), [view.book, at]);
  const state = draft.state ?? logged;
  const save = async () => {
    const body = weighingBody({ ...draft, at, zone: clock.zone(), state, confirmed: true, book: view.book });
    const id = await records.log(view.id, "weighing", body);
    await drop();
    go(`/b/${view.id}/weighing/${id}`, { replace: true });
  };
  return (
    <Screen title={words.state.title} back={`/b/${view.id}`}>
      <RolledOff
        book={view.book}
        state={state}
        bridge={draft.bridge}
        ticket={draft.ticket}
        guessed_kg={guessedInterval(draft.visit)}
        onState={(next) => change({ ...draft, state: next })}
        onBridge={(bridge) => change({ ...draft, bridge })}
        onTicket={(ticket) => change({ ...draft, ticket })}
      />
      <Actions>
        <Action
          label={words.state.back}
          kind="plain"
          onTouch={() => change({ ...draft, rolled_off: false })}
        />
        <Action label={draft.state ? words.state.save : words.state.confirm} onTouch={save} />
      </Actions>
    </Screen>
  );
}
