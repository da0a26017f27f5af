/** At the bowser: the answer on top, the fill in one form below, saved in one touch more. */
import type { JSX } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import { lastOdometer } from "@/services/way";
import { Action, Actions } from "@/ui/parts/action";
import { Ahead, AheadFrom } from "@/ui/parts/ahead";
import { Cautions } from "@/ui/parts/cautions";
import { apart, Findings } from "@/ui/parts/findings";
import { Heard } from "@/ui/parts/heard";
import { type BookView, type Services, useBook, useDraft, useSaved, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { useWhere } from "@/ui/parts/where";
import { Levels } from "@/ui/screens/level/levels";
import { range } from "@/ui/text/cautions";
import { words } from "@/ui/text/fuel";
import { words as road } from "@/ui/text/road";
import { FuelHeadline, FuelRests, Late } from "./answer";
import {
  type Doubt,
  emptyFill,
  type FillErrors,
  type FillForm,
  fuelTanks,
  litresOf,
  readFill,
  readSince,
} from "./entry";
import { FillFields } from "./fields";
import { Filling } from "./filling";
import { FirstTank } from "./first_tank";

export default function FuelScreen({ book: id }: { readonly book: string }): JSX.Element | null {
  const view = useBook(id);
  if (!view) return null;
  return fuelTanks(view.book).length === 0 ? <NoTank view={view} /> : <Fuel view={view} />;
}

function NoTank({ view }: { readonly view: BookView }): JSX.Element {
  const { records } = useServices();
  const [litres, setLitres] = useState({ text: "", unit: "L" });
  return <FirstTank view={view} litres={litres} onChange={setLitres} add={records.add} holds="fuel" />;
}

function Fuel({ view }: { readonly view: BookView }): JSX.Element | null {
  const { answers, clock } = useServices();
  const towing = useMemo(() => answers.presentAt(view.book, clock.now()).trailers_on.length > 0, [view.book]);
  const answer = useMemo(() => answers.fuel(view.book), [view.book]);
  const [since, setSince] = useState<Entry["body"] | null>(null);
  const typed = answer ? since : null;
  const book = useMemo(() => (typed ? answers.bookSince(view.book, typed) : view.book), [view.book, typed]);
  const shown = useMemo(() => (typed ? answers.fuel(book) : answer), [book, answer]);
  const there = typed ? { ...view, book } : view;
  const where = useWhere(there);
  const [saved, setSaved] = useSaved();
  const [fresh, others] = apart(answer?.findings ?? [], saved);
  const to = (task: string) => `/b/${view.id}/${task}`;
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      <div class="columns">
        <div>
          {shown ? <FuelHeadline answer={shown} /> : <p class="hint">{words.noLog}</p>}
          {typed ? <p class="hint">{words.asTyped}</p> : null}
          <Ahead view={there} where={where} holds="fuel" />
          {saved ? <p role="status">{words.saved}</p> : null}
          {answer ? <Late answer={answer} book={view.book} /> : null}
          {others.length > 0 ? <p>{words.asked(others.length)}</p> : null}
          <Findings view={view} findings={fresh} />
          <FillEntry
            view={view}
            name={`fill:${view.id}`}
            initial={emptyFill(view.book, towing)}
            onChange={() => setSaved(null)}
            onSince={setSince}
            onSaved={setSaved}
          />
          <Findings view={view} findings={others} />
          <AheadFrom view={there} where={where} />
        </div>
        <div>
          <Levels view={view} tanks={fuelTanks(view.book)} onSaved={setSaved} />
          {shown ? <FuelRests key={`${shown.surface} ${shown.towing}`} answer={shown} book={book} /> : null}
          <Heard view={view} />
          <Row label={road.link} to={to("road")} />
          <Row label={words.toMoved} to={to("entry/moved")} />
          <Row label={words.toChange} to={to("entry/change")} />
          <Row label={words.toOdometer} to={to("odometer")} />
          <Row label={words.toPast} to={to("consumption")} />
          <Row label={words.toLog} to={to("log")} />
        </div>
      </div>
      <Cautions lines={range} />
    </Screen>
  );
}

/** What the form says while it is being filled in. */
function typedSoFar({ book }: BookView, form: FillForm, clock: Services["clock"]) {
  const litres_l = litresOf(book, form);
  const all = fuelTanks(book);
  const typed = all.filter(({ id }) => litres_l[id] !== undefined);
  const tanks = typed.length > 0 ? typed : all.slice(0, 1);
  return { body: readFill(book, form, clock.now(), clock.zone()).body, tanks, litres_l };
}

export interface FillEntryProps {
  readonly view: BookView;
  /** The draft's name. */
  readonly name: string;
  readonly initial: FillForm;
  /** Fields of the record beside those of the form: what it corrects, when it happened. */
  readonly beside?: Readonly<Record<string, unknown>>;
  /** The body with what it keeps of an entry that it corrects. */
  readonly keep?: (form: FillForm, body: Entry["body"]) => Entry["body"];
  readonly onChange?: () => void;
  /** What the form says of the way since the last entry, while no litres are typed. */
  readonly onSince?: (body: Entry["body"] | null) => void;
  readonly onSaved: (id: string) => void;
}

type FormProps = Pick<FillEntryProps, "view" | "name" | "initial" | "beside" | "onSince">;

/** The form as it is typed, and what it says of the way since the last entry while no litres are typed. */
function useFill({ view, name, initial, beside, onSince }: FormProps) {
  const { clock } = useServices();
  const draft = useDraft<FillForm>(name, initial);
  const begun = useRef({ initial, touched: false });
  // a form that nobody has touched begins with what the log says now
  const touched =
    begun.current.touched || JSON.stringify(draft.value) !== JSON.stringify(begun.current.initial);
  const form = touched ? draft.value : initial;
  const last = lastOdometer(view.book);
  const now = { at: clock.now(), zone: clock.zone() };
  // without a fill or a level there is no log that it could go on
  const begins = view.book.fills.length + view.book.dips.length > 0;
  const said = beside || !draft.ready || !begins ? null : readSince(form, initial, last, now);
  const of = JSON.stringify(said && { ...said, at: "" });
  useEffect(() => onSince?.(said), [of]);
  const change = (next: FillForm) => {
    begun.current.touched = true;
    draft.change(next);
  };
  const drop = () => {
    begun.current = { initial, touched: false };
    return draft.drop();
  };
  return { ready: draft.ready, form, said, last, change, drop };
}

/** The form of one stop with its button. What is possible but unlikely is asked about once, and saved at the next touch. */
export function FillEntry(props: FillEntryProps): JSX.Element | null {
  const { view, beside, keep, onChange, onSaved } = props;
  const { clock, records } = useServices();
  const { ready, form, said, last, change, drop } = useFill(props);
  const [errors, setErrors] = useState<FillErrors>({});
  const [doubts, setDoubts] = useState<readonly Doubt[]>([]);
  const past = beside !== undefined;
  if (!ready) return null;
  const log = async (kind: string, body: Entry["body"]) => {
    const id = await records.log(view.id, kind, body);
    await drop();
    setDoubts([]);
    onSaved(id);
  };
  const put = (next: FillForm) => {
    setErrors({});
    setDoubts([]);
    onChange?.();
    change(next);
  };
  const save = async () => {
    const read = readFill(view.book, form, clock.now(), clock.zone(), past);
    setErrors(read.errors);
    if (!read.body) return;
    if (read.doubts.length > 0 && doubts.length === 0) return setDoubts(read.doubts);
    await log("fill", { ...(keep?.(form, read.body) ?? read.body), ...beside });
  };
  return (
    <>
      <FillFields
        {...{ form, errors, doubts, last, past }}
        book={view.book}
        under={past ? null : <Filling view={view} {...typedSoFar(view, form, clock)} />}
        onChange={put}
      />
      {said ? <Action label={words.keepSince} kind="plain" onTouch={() => log("event", said)} /> : null}
      <Actions>
        {doubts.map((doubt) => (
          <Notice key={doubt.words} tone="warn">
            {doubt.words}
          </Notice>
        ))}
        <Action label={doubts.length > 0 ? words.saveAnyway : words.save} onTouch={save} />
      </Actions>
    </>
  );
}
