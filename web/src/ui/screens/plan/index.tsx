/** The plan: the build on the beam, live axle loads, and the lists that it is made of. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import {
  type Book,
  type Row as Entry,
  fullState,
  type Planned,
  plannedIn,
  ratingsOf,
  type State,
} from "@/services/answers";
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
import { figure, kg, litres, metres, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/plan";
import { CentreOfGravity, SingleLoads } from "./centre";
import { KINDS } from "./fields";
import { rowsOf } from "./record";

export default function PlanScreen({ book }: { readonly book: string }): JSX.Element | null {
  const view = useBook(book);
  return view ? <Plan view={view} /> : null;
}

function Plan({ view }: { readonly view: BookView }): JSX.Element {
  const { answers, clock } = useServices();
  const [which, setWhich] = useState("full");
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
            ...view.book.trailers.map(({ id, body }) => ({ value: id, label: words.fullWith(body.name) })),
            { value: "now", label: words.asLogged },
          ]}
          onChange={setWhich}
        />
      ) : null}
      {found ? null : <Notice>{towed ? words.needLever(towed.body.name) : words.needBase}</Notice>}
      <div class="columns">
        {found ? <Ratings view={view} found={found} day={now.slice(0, 10)} on={towed?.id ?? null} /> : null}
        {found ? <CentreOfGravity book={view.book} state={state} /> : null}
        {found ? <SingleLoads book={view.book} state={state} /> : null}
        {Object.keys(KINDS).map((kind) =>
          kind === "person" && view.role === "fitter" ? null : (
            <KindList key={kind} view={view} kind={kind} />
          ),
        )}
      </div>
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

function KindList({ view, kind }: { readonly view: BookView; readonly kind: string }): JSX.Element {
  const rows = rowsOf(view, kind);
  const path = `/b/${view.id}/plan/${kind}`;
  const spec = KINDS[kind]!;
  return (
    <Section title={words.kinds[kind] ?? spec.title}>
      {rows.map((row) => (
        <Row
          key={row.id}
          label={labelOf(kind, row)}
          figure={figureOf(kind, row)}
          note={noteOf(kind, row, view.book)}
          to={`${path}/${row.id}`}
        />
      ))}
      {rows.length === 0 && spec.add ? <p class="hint">{words.empty[kind]}</p> : null}
      {kind === "plate" ? <Row label={words.whichBind} to={`/b/${view.id}/plates`} /> : null}
      {spec.add && view.role !== "co_driver" ? <Row label={spec.add} to={`${path}/new`} /> : null}
    </Section>
  );
}

function labelOf(kind: string, { body }: Entry): string {
  if (kind === "plate") return words.plateOf(body.of, body.date_from ?? null);
  const count = body.count > 1 ? ` × ${body.count}` : "";
  return `${body.name ?? ""}${count}`;
}

function figureOf(kind: string, { body }: Entry): string {
  if (kind === "vehicle") return body.wheelbase_m == null ? words.blank : metres(body.wheelbase_m);
  if (kind === "plate") return body.gross_kg == null ? "" : kg(body.gross_kg);
  if (kind === "item") return body.mass_kg == null ? words.blank : kg(body.mass_kg * (body.count ?? 1));
  if (kind === "tank") return body.capacity_l == null ? words.blank : litres(body.capacity_l);
  if (kind === "trailer") return emptyMass(body);
  if (kind === "seat") return body.x_m == null ? words.blank : metres(body.x_m);
  return body.mass_kg == null ? words.blank : kg(body.mass_kg);
}

function emptyMass({ base_coupling_kg, base_axles_kg }: Entry["body"]): string {
  if (base_coupling_kg == null || base_axles_kg == null) return words.blank;
  return kg(base_coupling_kg + base_axles_kg);
}

function noteOf(kind: string, { body }: Entry, book: Book): string {
  if (kind !== "item" && kind !== "tank") return "";
  const on = body.trailer_id ? book.trailers.find((one) => one.id === body.trailer_id) : null;
  const at = body.x_m == null ? words.noPlace : words.at(metres(body.x_m));
  const place = body.trailer_id ? `${at}, ${words.on(on?.body.name ?? words.goneTrailer)}` : at;
  return body.stage === "on_order" ? `${place}, ${words.onOrder}` : place;
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
