/** At the weighbridge: on the deck, then rolled off, then saved. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { type Book, type OnDeck as Found, provisional, type State } from "@/services/answers";
import { Action, Actions } from "@/ui/parts/action";
import { Form } from "@/ui/parts/form";
import { type BookView, type SeenBridge, useBook, useBridges, useDraft, useServices } from "@/ui/parts/live";
import { Screen } from "@/ui/parts/screen";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { words } from "@/ui/text/weigh";
import { type Choice, readTyped, type TypedNumber } from "@/units/typed";
import { type BridgeFacts, factsOf, lastOf, noBridge, openFacts, readFacts } from "./bridge_facts";
import { Deck } from "./deck";
import { NOT_SAID, readWarmth, withWarmth } from "./fuel_temperature";
import { Glance } from "./glance";
import { Guide } from "./guide";
import { weighingBody } from "./record";
import { RolledOff } from "./rolled_off";
import { choose, newVisit, nextStop, openVisit, take, type Visit } from "./visit";
import { WhichBridge } from "./which_bridge";

interface Draft {
  readonly visit: Visit;
  readonly rolled_off: boolean;
  /** Null until somebody touches it: then it is the one of last time, where there is one. */
  readonly bridge: BridgeFacts | null;
  readonly ticket: string;
  /** How warm the fuel is, as typed after roll-off. */
  readonly warmth: TypedNumber;
  readonly state: State | null;
}

const empty: Draft = {
  visit: newVisit,
  rolled_off: false,
  bridge: null,
  ticket: "",
  warmth: NOT_SAID,
  state: null,
};

export default function WeighScreen({ book: bookId }: { readonly book: string }): JSX.Element | null {
  const view = useBook(bookId);
  const seen = useBridges();
  const draft = useDraft<Draft>(`weigh:${bookId}`, empty);
  if (!view || !draft.ready || !seen) return null;
  const { value, change, drop } = draft;
  const visit = openVisit(value.visit);
  const kept = { ...empty, ...value, visit, bridge: openFacts(value.bridge) };
  const last = lastOf(seen, bookId, visit.form);
  const bridge = kept.bridge ?? (last ? factsOf(last) : noBridge);
  const step = { view, draft: kept, bridge, change };
  return kept.rolled_off ? <After {...step} seen={seen} drop={drop} /> : <OnDeck {...step} />;
}

interface StepProps {
  readonly view: BookView;
  readonly draft: Draft;
  /** The bridge as it stands: touched, or that of last time. */
  readonly bridge: BridgeFacts;
  readonly change: (draft: Draft) => void;
}

function OnDeck({ view, draft, bridge, change }: StepProps): JSX.Element {
  const { clock, ids, answers } = useServices();
  const [error, setError] = useState<string | null>(null);
  const [ask, setAsk] = useState<readonly Choice[] | null>(null);
  const { visit } = draft;
  const at = visit.at ?? clock.now();
  const logged = useMemo(() => answers.presentAt(view.book, at), [view.book, visit.at]);
  const state = draft.state ?? logged;
  const towing = state.trailers_on.length > 0;
  const found = useProvisional(view.book, draft, bridge);
  const beyond = visit.readings.length > 0 ? settled(bridge, visit).errors.accuracy_class : null;
  const put = (next: Visit) => {
    setError(null);
    setAsk(null);
    change({ ...draft, visit: next });
  };
  const taken = (): Visit | null => {
    const read = readFigure(visit);
    setError(typeof read === "string" ? read : null);
    setAsk(typeof read !== "string" && "choices" in read ? read.choices : null);
    if (typeof read === "string" || "choices" in read) return null;
    const interval_kg = visit.readings.length > 0 ? settled(bridge, visit).interval_kg : null;
    return take(visit, { id: ids(), ...read }, { at: clock.now(), towing, interval_kg });
  };
  const takeReading = () => {
    const next = taken();
    if (next) put(next);
  };
  const rollOff = () => {
    const next = visit.text.trim() && visit.on_deck.length > 0 ? taken() : visit;
    // two figures that differ are asked about before anybody rolls off
    if (next) change({ ...draft, visit: next, rolled_off: next === visit || next.doubted === null });
  };
  const couple = (trailer_id: string) => {
    const coupled = { ...answers.stateAt(view.book, at), trailers_on: [trailer_id] };
    change({ ...draft, state: coupled, visit: choose(visit, nextStop(visit.readings, true, visit.form)) });
  };
  return (
    <Screen title={view.name} back={`/b/${view.id}`}>
      <Form onEnter={takeReading} keepFocus>
        <Deck
          book={view.book}
          visit={visit}
          state={state}
          error={error}
          ask={ask}
          onVisit={put}
          onCoupled={couple}
        >
          {beyond ? (
            <p class="field-error" role="status">
              {beyond}
            </p>
          ) : null}
          {found ? <Glance judged={found.comparison.day} terms={view.terms} /> : null}
        </Deck>
        {found ? <Verdicts {...{ view, found, visit, state }} onVisit={put} /> : null}
        <DeckActions visit={visit} onTake={takeReading} onRollOff={rollOff} />
      </Form>
    </Screen>
  );
}

type Read = Pick<Parameters<typeof take>[1], "value_kg" | "typed"> | { readonly choices: readonly Choice[] };

/** The figure as typed; a sentence says what is wrong with it. */
function readFigure({ on_deck, text, unit }: Visit): Read | string {
  if (on_deck.length === 0) return words.needAxle;
  const wanted = { dimension: "mass", low: 0, high: 200_000, name: words.figure } as const;
  const read = readTyped({ text, unit }, wanted);
  if (read.kind === "blank") return words.needFigure;
  if (read.kind === "wrong") return read.message;
  return read.kind === "ask" ? { choices: read.choices } : { value_kg: read.base, typed: read.as_typed };
}

interface DeckActionsProps {
  readonly visit: Visit;
  readonly onTake: () => void;
  readonly onRollOff: () => void;
}

/** With a figure typed, rolling off takes it along: a single total needs no touch of its own. */
function DeckActions({ visit, onTake, onRollOff }: DeckActionsProps): JSX.Element {
  const standing = visit.on_deck.length > 0;
  const typed = standing && visit.text.trim() !== "";
  return (
    <Actions>
      {visit.readings.length > 0 || typed ? (
        <Action
          label={typed ? words.takeAndRollOff : words.rollOff}
          kind={standing ? "plain" : "primary"}
          onTouch={onRollOff}
        />
      ) : null}
      {standing || visit.readings.length === 0 ? <Action label={words.take} onTouch={onTake} /> : null}
    </Actions>
  );
}

interface VerdictsProps {
  readonly view: BookView;
  readonly found: Found;
  readonly visit: Visit;
  readonly state: State;
  readonly onVisit: (visit: Visit) => void;
}

function Verdicts({ view, found, visit, state, onVisit }: VerdictsProps): JSX.Element {
  const { book } = view;
  return (
    <div>
      <Guide {...{ book, state, found, visit, onVisit }} />
      {found.comparison.day.map((judged) => (
        <VerdictRow key={judged.verdict.rating} judged={judged} terms={view.terms} />
      ))}
    </div>
  );
}

function settled(bridge: BridgeFacts, { form, readings }: Visit) {
  return readFacts(bridge, form, readings);
}

function useProvisional(book: Book, draft: Draft, bridge: BridgeFacts): Found | null {
  const { clock, answers } = useServices();
  const at = draft.visit.at ?? clock.now();
  const weighed = draft.visit.readings.length > 0;
  const logged = useMemo(
    () => (weighed && !draft.state ? answers.stateAt(book, at) : null),
    [book, draft.visit.at, weighed, draft.state],
  );
  const state = weighed ? (draft.state ?? logged) : null;
  return useMemo(() => {
    if (!state) return null;
    const body = weighingBody({ ...draft, bridge, at, zone: clock.zone(), state, confirmed: false, book });
    return provisional(book, { id: "now", kind: "weighing", rev: "now", body });
  }, [book, draft.visit.readings, draft.visit.form, draft.visit.one_pad, JSON.stringify(bridge), state]);
}

interface AfterProps extends StepProps {
  readonly seen: readonly SeenBridge[];
  readonly drop: () => Promise<void>;
}

function After({ view, draft, bridge, seen, change, drop }: AfterProps): JSX.Element {
  const { clock, records, answers, go } = useServices();
  const [refused, setRefused] = useState(false);
  const { visit } = draft;
  const at = visit.at ?? clock.now();
  const logged = useMemo(() => answers.stateAt(view.book, at), [view.book, at]);
  const state = draft.state ?? logged;
  const wrong = Object.keys(settled(bridge, visit).errors).length > 0;
  const warm = ["ok", "blank"].includes(readWarmth(draft.warmth).kind);
  const save = async () => {
    setRefused(wrong);
    if (wrong || !warm) return;
    const body = weighingBody({
      ...{ ...draft, bridge, at, zone: clock.zone() },
      ...{ state: withWarmth(state, draft.warmth), confirmed: true, book: view.book },
    });
    const id = await records.log(view.id, "weighing", body);
    await drop();
    go(`/b/${view.id}/weighing/${id}`, { replace: true });
  };
  return (
    <Screen title={words.state.title} back={`/b/${view.id}`}>
      <RolledOff
        book={view.book}
        state={state}
        ticket={draft.ticket}
        warmth={draft.warmth}
        onWarmth={(warmth) => change({ ...draft, warmth })}
        bridge={
          <WhichBridge
            {...{ visit, bridge, seen, refused: refused && wrong }}
            onBridge={(next, layout) => change({ ...draft, bridge: next, visit: { ...visit, ...layout } })}
          />
        }
        onState={(next) => change({ ...draft, state: next })}
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
