/** One vehicle: what it weighs, how far, how long, and the four things to do with it. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import {
  type Book,
  type Comparison,
  type Row as Entry,
  type Judged,
  judgedIn,
  latestComparison,
  type State,
  spareKg,
} from "@/services/answers";
import { whyUnread } from "@/services/readings";
import { Cautions } from "@/ui/parts/cautions";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import type { TrailerFacts } from "@/ui/parts/drawing/frame";
import { arrowsOf, tanksOf } from "@/ui/parts/drawing/loads";
import { axlePlaces, coupledIn, ROW_OF, trailerFacts, trailerIn } from "@/ui/parts/drawing/towed";
import { Link } from "@/ui/parts/link";
import { type BookView, useBook, useDay, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { words as bridge } from "@/ui/text/bridge";
import { words as changeWords } from "@/ui/text/change";
import { dayOf, days, figure, km, signedKg, twoSided } from "@/ui/text/figures";
import { ratingName, verdictWords } from "@/ui/text/ratings";
import { words as road } from "@/ui/text/road";
import { words } from "@/ui/text/vehicle";
import { words as weighing } from "@/ui/text/weighing";
import { Coupling } from "./coupling";
import "./vehicle.css";

export default function VehicleScreen({ book: id }: { readonly book: string }): JSX.Element | null {
  const view = useBook(id);
  return view ? <Vehicle view={view} /> : null;
}

function Vehicle({ view }: { readonly view: BookView }): JSX.Element {
  const found = useMemo(() => latestComparison(view.book), [view.book]);
  const { state, read } = useDay(view);
  const towed = trailerIn(view.book, state.trailers_on);
  const trailer = towed ? trailerFacts(view.book, towed) : null;
  // figures of another coupling would stand under a vehicle that was not weighed like this
  const told = found && weighedWith(view.book, found) === (towed?.id ?? null) ? found : null;
  return (
    <Screen title={view.name} back="/">
      <Beam
        body={view.book.vehicle?.body ?? {}}
        title={words.drawing}
        trailer={trailer}
        supports={supports(view.book, trailer, told)}
        arrows={arrowsOf(view.book, towed?.id ?? null)}
        tanks={tanksOf(view.book, state, { trailer_id: towed?.id ?? null })}
      />
      <nav class="tasks" aria-label={words.tasks}>
        {tasksOf(view).map(([path, label]) => (
          <Link key={path} to={`/b/${view.id}/${path}`}>
            {label}
          </Link>
        ))}
      </nav>
      <Coupling view={view} state={state} />
      <div class="columns">
        <div>
          {read ? <Now view={view} state={state} /> : null}
          {found ? <Weighed view={view} found={found} towed={towed} /> : <NothingWeighed view={view} />}
        </div>
        <Supplies view={view} />
        <Weighings view={view} />
      </div>
      <Row label={road.link} to={roadOf(view)} />
      {view.role === "fitter" ? null : <Row label={words.breakdown} to={`/b/${view.id}/breakdown`} />}
      <Row label={words.room} to={`/b/${view.id}/room`} />
      <Row label={changeWords.link} to={`/b/${view.id}/change`} />
      <Row label={words.plates} to={`/b/${view.id}/plates`} />
      <Cautions />
    </Screen>
  );
}

/** The only route, or the list of them. */
function roadOf({ id, book: { routes } }: BookView): string {
  return `/b/${id}/road${routes.length === 1 ? `/${routes[0]!.id}` : ""}`;
}

function tasksOf(view: BookView): [string, string][] {
  const tasks: [string, string][] = [
    ["weigh", words.weigh],
    ["fuel", words.fuel],
    ["water", words.water],
    ["plan", words.plan],
    ["log", words.log],
    ["members", words.share],
  ];
  return view.role === "fitter" ? tasks.filter(([path]) => path !== "fuel" && path !== "water") : tasks;
}

/** The rating that is nearest to its limit in the state of the log, and every other that is not under. */
function Now({ view, state }: { readonly view: BookView; readonly state: State }): JSX.Element | null {
  const { book, terms } = view;
  const day = useServices().clock.now().slice(0, 10);
  const judged = useMemo(() => judgedIn(book, state, day), [book, state]);
  const [first, ...others] = judged;
  if (!first) return null;
  const told = ({ verdict }: Judged) => words.rated(ratingName(verdict.rating, terms), verdictWords(verdict));
  const more = others.filter((one) => spareKg(one) < 0).map(told);
  const held = spareKg(first) >= 0;
  return (
    <Row
      label={words.now}
      said={told(first)}
      note={held ? words.leastOfAll : more.join(", ")}
      to={`/b/${view.id}/${held ? "room" : "change/now"}`}
    />
  );
}

interface WeighedProps {
  readonly view: BookView;
  readonly found: Comparison;
  /** The trailer that is coupled by the log. */
  readonly towed: Entry | null;
}

function Weighed({ view, found, towed }: WeighedProps): JSX.Element {
  const coupled = found.forecasts.find((one) => one.trailer_id === (towed?.id ?? null));
  const full = (coupled ?? found.forecasts[0])?.full ?? [];
  const shown = full.length > 0 ? full : found.day;
  const title = full.length > 0 ? weighing.fullWith(coupled && towed ? towed.body.name : null) : words.day;
  return (
    <Section title={title}>
      {full.length > 0 && !coupled ? <p class="hint">{words.without}</p> : null}
      {shown.map((judged) => (
        <VerdictRow key={judged.verdict.rating} judged={judged} terms={view.terms} quiet />
      ))}
      {found.unplanned ? (
        <Row
          label={words.unplanned}
          figure={`${signedKg(found.unplanned.mass_kg)} ± ${Math.round(twoSided(found.unplanned.u_kg))}`}
          to={`/b/${view.id}/weighing/${found.weighing_id}`}
        />
      ) : null}
    </Section>
  );
}

function NothingWeighed({ view }: { readonly view: BookView }): JSX.Element {
  return (
    <Section title={words.notWeighed}>
      <p>{words.weighFirst}</p>
      {view.book.items.length === 0 ? <p>{words.noPlan}</p> : null}
    </Section>
  );
}

/** How far and how long: each row opens the page that says what it rests on. */
function Supplies({ view }: { readonly view: BookView }): JSX.Element | null {
  const { answers, clock } = useServices();
  const now = clock.now();
  const fuel = useMemo(() => answers.fuel(view.book), [view.book]);
  const water = useMemo(() => answers.water(view.book, now), [view.book]);
  if (!fuel && !water) return null;
  return (
    <Section title={words.supplies}>
      {fuel ? (
        <Row
          label={words.countOn}
          figure={km(fuel.count_on_km)}
          note={words.likely(km(fuel.likely_km))}
          to={`/b/${view.id}/fuel`}
        />
      ) : null}
      {water && water.count_on_days !== null ? (
        <Row
          label={words.waterFor}
          figure={days(water.count_on_days)}
          note={words.likely(days(water.likely_days ?? 0))}
          to={`/b/${view.id}/water`}
        />
      ) : null}
    </Section>
  );
}

function Weighings({ view }: { readonly view: BookView }): JSX.Element | null {
  const { weighings, unread } = view.book;
  const all = [...weighings, ...unread].sort((a, b) => (a.body.at < b.body.at ? 1 : -1));
  if (all.length === 0) return null;
  return (
    <Section title={words.weighings}>
      {all.map((one) => (
        <Row
          key={one.id}
          label={dayOf(one.body.at, one.body.zone)}
          said={one.body.bridge.name ?? ""}
          note={unreadNote(one)}
          to={`/b/${view.id}/weighing/${one.id}`}
        />
      ))}
    </Section>
  );
}

function unreadNote(weighing: Entry): string {
  const why = whyUnread(weighing);
  return why ? bridge.unread(why.beyond) : "";
}

function supports(book: Book, trailer: TrailerFacts | null, found: Comparison | null): Support[] {
  return axlePlaces(book.vehicle?.body ?? {}, trailer).map((place) => {
    const judged = found?.day.find((one) => one.verdict.rating === ROW_OF[place.id]);
    const value = judged && judged.source !== "none" ? figure(judged.verdict.value_kg) : "?";
    return { ...place, figure: value, label: place.id };
  });
}

/** The trailer that was coupled at a weighing, or null. */
function weighedWith(book: Book, found: Comparison): string | null {
  const weighing = book.weighings.find((one) => one.id === found.weighing_id);
  return (weighing && coupledIn(weighing)) ?? null;
}
