/** The plan: the build on the beam, live axle loads, and the lists that it is made of. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { type Row as Entry, fullState, type Planned, plannedIn, ratingsOf } from "@/services/answers";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import { arrowsOf } from "@/ui/parts/drawing/loads";
import { ChoiceField } from "@/ui/parts/forms";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { figure, kg, litres, metres, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/plan";
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
    () => (which === "full" ? fullState({ book: view.book }) : answers.stateAt(view.book, now)),
    [view.book, which],
  );
  const found = useMemo(() => plannedIn(view.book, state), [view.book, state]);
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      <Beam
        body={view.book.vehicle?.body ?? {}}
        title={words.drawing}
        supports={supports(view, found)}
        arrows={arrowsOf(view.book)}
        cg_x_m={found?.cg_x_m ?? null}
      />
      {found ? (
        <ChoiceField
          label={words.state}
          value={which}
          options={[
            { value: "full", label: words.full },
            { value: "now", label: words.asLogged },
          ]}
          onChange={setWhich}
        />
      ) : (
        <Notice>{words.needBase}</Notice>
      )}
      <div class="columns">
        {found ? <Ratings view={view} found={found} day={now.slice(0, 10)} /> : null}
        {Object.keys(KINDS).map((kind) =>
          kind === "person" && view.role === "fitter" ? null : (
            <KindList key={kind} view={view} kind={kind} />
          ),
        )}
      </div>
    </Screen>
  );
}

function Ratings({ view, found, day }: { view: BookView; found: Planned; day: string }): JSX.Element {
  const { answers } = useServices();
  const judged = answers.judgeLoads(view.book, found.loads, ratingsOf({ book: view.book, day }));
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
          note={noteOf(kind, row)}
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
  if (kind === "seat") return body.x_m == null ? words.blank : metres(body.x_m);
  return body.mass_kg == null ? words.blank : kg(body.mass_kg);
}

function noteOf(kind: string, { body }: Entry): string {
  if (kind !== "item" && kind !== "tank") return "";
  const place = body.x_m == null ? words.noPlace : words.at(metres(body.x_m));
  return body.stage === "on_order" ? `${place}, ${words.onOrder}` : place;
}

function supports({ book }: BookView, found: Planned | null): Support[] {
  const wheelbase_m: number = book.vehicle?.body.wheelbase_m ?? 3.2;
  return (["front", "rear"] as const).map((row, k) => {
    const value = found ? found.loads.mean_kg[k]! : null;
    const u = found ? Math.sqrt(found.loads.cov_kg2[k]![k]!) : 0;
    const told = value === null ? "?" : u > 0 ? withReach(value, twoSided(u)) : figure(value);
    return { id: row, x_m: row === "front" ? 0 : wheelbase_m, figure: told, label: row };
  });
}
