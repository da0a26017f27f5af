/** The plan: the build on the beam, live axle loads, and the lists that it is made of. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { type Book, fullState, type Planned, plannedIn, ratingsOf, type State } from "@/services/answers";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import type { TrailerFacts } from "@/ui/parts/drawing/frame";
import { arrowsOf } from "@/ui/parts/drawing/loads";
import { axlePlaces, ROW_OF, trailerFacts, trailerIn } from "@/ui/parts/drawing/towed";
import { ChoiceField } from "@/ui/parts/forms";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { figure, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/plan";
import { CentreOfGravity, SingleLoads } from "./centre";
import { editsOf } from "./edits";
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
  const [picked, setPicked] = useState<string | null>(null);
  const edits = editsOf(records, view.id);
  const now = clock.now();
  const state = useMemo(
    () => (which === "now" ? answers.stateAt(view.book, now) : fullWith(view.book, which)),
    [view.book, which],
  );
  const found = useMemo(() => plannedIn(view.book, state), [view.book, state]);
  const towed = trailerIn(view.book, state.trailers_on);
  const trailer = towed ? trailerFacts(view.book, towed) : null;
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      <div class="plan-bench">
        <div class="plan-seen">
          <Beam
            body={view.book.vehicle?.body ?? {}}
            title={words.drawing}
            trailer={trailer}
            supports={supports(view, trailer, found)}
            arrows={arrowsOf(view.book, towed?.id ?? null)}
            cg_x_m={found?.cg_x_m ?? null}
          />
          {found || towed ? (
            <ChoiceField
              label={words.state}
              value={which}
              options={[
                { value: "full", label: words.full },
                ...view.book.trailers.map(({ id, body }) => ({
                  value: id,
                  label: words.fullWith(body.name),
                })),
                { value: "now", label: words.asLogged },
              ]}
              onChange={setWhich}
            />
          ) : null}
          {found ? null : <Notice>{towed ? words.needLever(towed.body.name) : words.needBase}</Notice>}
          {found ? <Ratings view={view} found={found} day={now.slice(0, 10)} on={towed?.id ?? null} /> : null}
        </div>
        <div>
          <Tables view={view} edits={edits} picked={picked} onPick={setPicked} />
        </div>
      </div>
      <div class="columns">
        {found ? <CentreOfGravity book={view.book} state={state} /> : null}
        {found ? <SingleLoads book={view.book} state={state} /> : null}
        {REST.map((kind) =>
          kind === "person" && view.role === "fitter" ? null : (
            <KindList key={kind} view={view} kind={kind} />
          ),
        )}
      </div>
      {found ? <Row label={words.room} to={`/b/${view.id}/room`} /> : null}
      {found ? <Row label={words.compare} to={`/b/${view.id}/compare`} /> : null}
      <Undo view={view} edits={edits} />
    </Screen>
  );
}

/** Everything full and aboard; `which` may name the trailer that is coupled. */
function fullWith(book: Book, which: string): State {
  const trailers_on = book.trailers.filter((one) => one.id === which).map((one) => one.id);
  return { ...fullState({ book }), trailers_on };
}

interface RatingsProps {
  readonly view: BookView;
  readonly found: Planned;
  readonly day: string;
  /** The trailer that is on in the state. */
  readonly on: string | null;
}

function Ratings({ view, found, day, on }: RatingsProps): JSX.Element {
  const { answers } = useServices();
  const judged = answers.judgeLoads(
    view.book,
    found.loads,
    ratingsOf({ book: view.book, day, trailer_id: on }),
  );
  return (
    <Section title={words.ratings}>
      {judged.map((one) => (
        <VerdictRow key={one.verdict.rating} judged={one} terms={view.terms} quiet />
      ))}
      {found.missing.length > 0 ? <p class="hint">{words.notCounted(found.missing.length)}</p> : null}
    </Section>
  );
}

function supports({ book }: BookView, trailer: TrailerFacts | null, found: Planned | null): Support[] {
  return axlePlaces(book.vehicle?.body ?? {}, trailer).map((place) => {
    const k = found ? found.loads.rows.indexOf(ROW_OF[place.id]) : -1;
    return { ...place, figure: k < 0 ? "?" : told(found!, k), label: place.id };
  });
}

function told({ loads }: Planned, k: number): string {
  const u = Math.sqrt(loads.cov_kg2[k]![k]!);
  return u > 0 ? withReach(loads.mean_kg[k]!, twoSided(u)) : figure(loads.mean_kg[k]!);
}
