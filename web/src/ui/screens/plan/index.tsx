/** The plan: the build on the beam, live axle loads, and the lists that it is made of. */
import type { JSX } from "preact";
import { useCallback, useMemo, useState } from "preact/hooks";
import { type Book, fullState, type State } from "@/services/answers";
import { typicalIn } from "@/services/catalogue";
import { plannedIn } from "@/services/plan";
import { Cautions } from "@/ui/parts/cautions";
import { trailerIn } from "@/ui/parts/drawing/towed";
import { ChoiceField } from "@/ui/parts/forms";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { StateField } from "@/ui/parts/states";
import { words as catalogue } from "@/ui/text/catalogue";
import { words as changeWords } from "@/ui/text/change";
import { words } from "@/ui/text/plan";
import { words as states } from "@/ui/text/states";
import { AssumedList } from "./assumed";
import { Bench, type Picked } from "./bench";
import { CentreOfGravity, SingleLoads } from "./centre";
import { editsOf } from "./edits";
import { ForgottenMass } from "./forgotten";
import { KindList } from "./kind_list";
import { Tables } from "./tables";
import { Undo } from "./undo";

const REST = ["vehicle", "trailer", "plate", "person"];

export default function PlanScreen({ book }: { readonly book: string }): JSX.Element | null {
  const view = useBook(book);
  return view ? <Plan view={view} /> : null;
}

function Plan({ view }: { readonly view: BookView }): JSX.Element {
  const { answers, clock, records } = useServices();
  const [which, setWhich] = useState("full");
  const [picked, setPicked] = useState<Picked | null>(null);
  const pickInList = useCallback((id: string | null) => setPicked(id ? { id, by: "list" } : null), []);
  const [fitted, setFitted] = useState(false);
  const edits = editsOf(records, view.id);
  const now = clock.now();
  const state = useMemo(
    () => (which === "now" ? answers.stateAt(view.book, now) : fullWith(view.book, which)),
    [view.book, which],
  );
  const waits = view.book.items.some(({ body }) => body.stage === "on_order");
  const ordered = waits && fitted;
  const found = useMemo(() => plannedIn(view.book, state, ordered), [view.book, state, ordered]);
  const beside = useMemo(
    () => (waits ? plannedIn(view.book, state, !ordered) : null),
    [view.book, state, ordered, waits],
  );
  const towed = trailerIn(view.book, state.trailers_on);
  const typical = typicalIn(view.book.vehicle?.body ?? {});
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      <Bench
        {...{ view, edits, found, state, beside, ordered, picked }}
        day={now.slice(0, 10)}
        on={towed?.id ?? null}
        onPick={setPicked}
        tables={<Tables view={view} edits={edits} picked={picked} onPick={pickInList} />}
      >
        {found || towed ? (
          <StateField trailers={view.book.trailers} value={which} onChange={setWhich} />
        ) : null}
        {typical ? <Notice>{catalogue.typical(typical)}</Notice> : null}
        {waits && found ? <WhichBuild ordered={ordered} onChoose={setFitted} /> : null}
        {found ? null : <Notice>{towed ? states.needLever(towed.body.name) : states.needBase}</Notice>}
      </Bench>
      <div class="columns">
        {found ? <ForgottenMass {...{ view, edits, found, ordered }} /> : null}
        {found ? <CentreOfGravity book={view.book} {...{ state, ordered }} /> : null}
        {found ? <SingleLoads book={view.book} {...{ state, ordered }} /> : null}
        <AssumedList view={view} found={found} />
        {REST.map((kind) =>
          kind === "person" && view.role === "fitter" ? null : (
            <KindList key={kind} view={view} kind={kind} />
          ),
        )}
      </div>
      {found ? <Row label={words.room} to={`/b/${view.id}/room`} /> : null}
      {found ? <Row label={words.compare} to={`/b/${view.id}/compare`} /> : null}
      {found ? <Row label={changeWords.link} to={`/b/${view.id}/change/${which}`} /> : null}
      <Cautions />
      <Undo view={view} edits={edits} />
    </Screen>
  );
}

/** Everything full and aboard; `which` may name the trailer that is coupled. */
function fullWith(book: Book, which: string): State {
  const trailers_on = book.trailers.filter((one) => one.id === which).map((one) => one.id);
  return { ...fullState({ book }), trailers_on };
}

interface BuildProps {
  readonly ordered: boolean;
  readonly onChoose: (ordered: boolean) => void;
}

function WhichBuild({ ordered, onChoose }: BuildProps): JSX.Element {
  const options = [
    { value: "today", label: words.today },
    { value: "ordered", label: words.onceFitted },
  ];
  return (
    <ChoiceField
      label={words.build}
      value={ordered ? "ordered" : "today"}
      options={options}
      onChange={(value) => onChoose(value === "ordered")}
    />
  );
}
