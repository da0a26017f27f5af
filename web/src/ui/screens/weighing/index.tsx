/** What a weighing says: verdicts of the day, planned against weighed, the unplanned mass, the full state. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { type Book, type Comparison, comparisonOf, type Row as Entry } from "@/services/answers";
import { whyUnread } from "@/services/readings";
import { Cautions } from "@/ui/parts/cautions";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import type { TrailerFacts } from "@/ui/parts/drawing/frame";
import { arrowsOf, tanksOf } from "@/ui/parts/drawing/loads";
import { axlePlaces, coupledIn, ROW_OF, trailerFacts, trailerIn } from "@/ui/parts/drawing/towed";
import { GapTable } from "@/ui/parts/gap_table";
import { useLater } from "@/ui/parts/later";
import { type BookView, useBook } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { words as bridge } from "@/ui/text/bridge";
import { words as changeWords } from "@/ui/text/change";
import { momentOf, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/weighing";
import { CauseList } from "./causes";
import { Forecasts, unsettled } from "./forecasts";
import { Readings } from "./readings";
import { UnplannedMass, UnplannedTrailer } from "./unplanned";

interface Props {
  readonly book: string;
  readonly weighing: string;
}

export default function WeighingScreen({ book, weighing }: Props): JSX.Element | null {
  const view = useBook(book);
  if (!view) return null;
  const entry = view.book.weighings.find((one) => one.id === weighing);
  if (entry) return <Weighing view={view} entry={entry} />;
  const unread = view.book.unread.find((one) => one.id === weighing);
  if (unread) return <Unread view={view} entry={unread} />;
  return (
    <Screen title={words.title} back={`/b/${book}`}>
      <Notice>{words.gone}</Notice>
    </Screen>
  );
}

function Unread({ view, entry }: { readonly view: BookView; readonly entry: Entry }): JSX.Element {
  const why = whyUnread(entry);
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={momentOf(entry.body.at, entry.body.zone)}>
      {why ? <Notice tone="warn">{bridge.unread(why.beyond)}</Notice> : null}
      <p>{bridge.unreadNext}</p>
      <Row label={words.log} to={`/b/${view.id}/log`} />
    </Screen>
  );
}

function Weighing({ view, entry }: { readonly view: BookView; readonly entry: Entry }): JSX.Element {
  const found = useMemo(() => comparisonOf(view.book, entry.id), [view.book, entry.id]);
  const beside = useLater(() => import("./beside"));
  const { terms } = view;
  const towed = trailerIn(view.book, [coupledIn(entry) ?? ""]);
  const trailer = towed ? trailerFacts(view.book, towed) : null;
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={momentOf(entry.body.at, entry.body.zone)}>
      <Beam
        body={view.book.vehicle?.body ?? {}}
        title={words.drawing}
        trailer={trailer}
        supports={supports(view.book, trailer, found)}
        arrows={found.planned ? arrowsOf(view.book, towed?.id ?? null) : []}
        tanks={
          found.planned ? tanksOf(view.book, entry.body.state ?? {}, { trailer_id: towed?.id ?? null }) : []
        }
        zone={placeOf(found)}
      />
      {found.unplanned ? (
        <UnplannedMass unplanned={found.unplanned} wheelbase_m={wheelbase(view.book)} />
      ) : null}
      {found.unplanned_trailer ? <UnplannedTrailer unplanned={found.unplanned_trailer} /> : null}
      {found.planned ? null : <Notice>{words.noPlan}</Notice>}
      {found.visit.agree ? null : <Notice tone="warn">{words.disagree}</Notice>}
      <div class="columns">
        <Section title={words.day}>
          {found.day.map((judged) => (
            <VerdictRow key={judged.verdict.rating} judged={judged} terms={terms} />
          ))}
          {found.lifts.map((row) => (
            <p key={row}>{words.lifts[row]}</p>
          ))}
          {found.planned && found.day.some(unsettled) ? (
            <Row label={changeWords.link} to={`/b/${view.id}/change/${entry.id}`} />
          ) : null}
        </Section>
        <Forecasts forecasts={found.forecasts} book={view.book} terms={terms} />
        {found.gaps.length > 0 ? (
          <Section title={words.compared}>
            <GapTable gaps={found.gaps} />
            <p class="hint">{words.comparedHint}</p>
          </Section>
        ) : null}
        <CauseList book={view.book} entry={entry} real={found.unplanned?.real ?? false} />
        {beside ? <beside.KilogramAccount view={view} entry={entry} /> : null}
        {beside ? <beside.SinceLastTime view={view} entry={entry} /> : null}
        {beside ? <beside.LeftRight view={view} weighing={entry.id} /> : null}
        <Readings book={view.book} entry={entry} found={found} />
        {beside && found.items.length > 0 ? <beside.ItemTable items={found.items} book={view.book} /> : null}
        {found.missing.length > 0 ? <MissingList found={found} book={view.book} /> : null}
        {beside ? <beside.WhatTheyTaught view={view} entry={entry} /> : null}
      </div>
      {beside === null ? <Notice>{words.besideNotHere}</Notice> : null}
      <Cautions />
    </Screen>
  );
}

function MissingList({ found, book }: { readonly found: Comparison; readonly book: Book }): JSX.Element {
  const rows = [...book.items, ...book.tanks, ...book.seats, ...(book.vehicle ? [book.vehicle] : [])];
  return (
    <Section title={words.missing}>
      {found.missing.map((one) => (
        <Row
          key={`${one.record_id}${one.field}`}
          label={rows.find((row) => row.id === one.record_id)?.body.name ?? one.kind}
          said={words.field(one.field)}
        />
      ))}
    </Section>
  );
}

function supports(book: Book, trailer: TrailerFacts | null, found: Comparison): Support[] {
  return axlePlaces(book.vehicle?.body ?? {}, trailer).map((place) => {
    const measured = found.visit.measured.find((one) => one.row === ROW_OF[place.id]);
    const told = measured ? withReach(measured.value_kg, twoSided(measured.u_kg)) : "?";
    return { ...place, figure: told, label: place.id };
  });
}

function placeOf(found: Comparison): { from_m: number; to_m: number } | null {
  const zone = found.unplanned?.finding === "placed" ? found.unplanned.zone : null;
  return zone?.from_m != null && zone.to_m != null ? { from_m: zone.from_m, to_m: zone.to_m } : null;
}

function wheelbase(book: Book): number {
  return book.vehicle?.body.wheelbase_m ?? 3.2;
}
