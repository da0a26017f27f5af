/** One plate: what it changed and what it did not, its tyres, and the what-if of a planned one. */
import type { JSX } from "preact";
import type { Book } from "@/services/answers";
import type { Change, PlateLine, Rating } from "@/services/plates";
import { YesNo } from "@/ui/parts/forms";
import type { BookView } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { dayOf } from "@/ui/text/figures";
import { words } from "@/ui/text/plates";
import { ratingName, type Terms } from "@/ui/text/ratings";
import { Tyres } from "./tyres";
import { WhatIf } from "./what_if";

interface Props {
  readonly view: BookView;
  readonly line: PlateLine;
  /** Whether the what-if counts it. */
  readonly counted: boolean;
  readonly onCount: (counted: boolean) => void;
  /** The ratings that the page shows, and those in force. */
  readonly ratings: readonly Rating[];
  readonly today: readonly Rating[];
}

export function PlateEntry({ view, line, counted, onCount, ratings, today }: Props): JSX.Element {
  const { plate, planned, tyres } = line;
  const { issuer, conditions } = plate.body;
  const name = nameOf(view.book, plate.id);
  const told = [planned ? words.planned : "", issuer ?? "", conditions ?? ""].filter(Boolean).join(". ");
  return (
    <article class="plate" aria-label={name}>
      <Row label={name} note={told} to={`/b/${view.id}/plan/plate/${plate.id}`} />
      <Changes view={view} line={line} />
      {tyres ? <Tyres view={view} tyres={tyres} planned={planned} /> : null}
      {planned ? <YesNo question={words.whatIf} value={counted} onChange={onCount} /> : null}
      {counted ? <WhatIf view={view} ratings={ratings} today={today} /> : null}
    </article>
  );
}

function Changes({ view, line }: { readonly view: BookView; readonly line: PlateLine }): JSX.Element {
  const { changes, plate } = line;
  const name = (one: Change) => ratingName(one.rating, view.terms);
  const stated = changes.filter((one) => one.stated_kg !== null);
  const kept = changes.filter((one) => one.stated_kg === null);
  const known = kept.filter((one) => one.after.limit_kg !== null).map(name);
  const gross = changes.find((one) => one.rating === "gross");
  return (
    <>
      {stated.length === 0 ? <p>{words.nothing}</p> : null}
      {stated.map((one) => (
        <p key={one.rating}>{sentence(view.book, plate.id, one, view.terms)}</p>
      ))}
      {known.length > 0 ? <p class="hint">{words.unchanged(known)}</p> : null}
      {gross && raised(gross) ? <HigherGross line={line} unknown={blank(kept).map(name)} /> : null}
    </>
  );
}

function sentence(book: Book, plate_id: string, change: Change, terms: Terms | null): string {
  const { rating, before, after, changed } = change;
  const [name, stated, binding] = [ratingName(rating, terms), change.stated_kg!, after.limit_kg!];
  const moved =
    before.limit_kg === null
      ? words.first(name, binding)
      : changed
        ? words.change(name, before.limit_kg, binding)
        : words.same(name, binding);
  if (after.plate_id === null || after.plate_id === plate_id || stated === binding) return moved;
  const other = words.stillBinds(name, stated, nameOf(book, after.plate_id), binding);
  return changed ? `${moved} ${other}` : other;
}

/** The sentence that stands beside every higher gross rating, with what it leaves behind the vehicle. */
function HigherGross({
  line,
  unknown,
}: {
  readonly line: PlateLine;
  readonly unknown: readonly string[];
}): JSX.Element {
  const [before, after] = line.left_kg;
  return (
    <>
      {unknown.length > 0 ? <p class="hint">{words.stillUnknown(unknown)}</p> : null}
      <Notice>
        {words.higherGross}
        {before !== null && after !== null ? ` ${words.leaves(before, after)}` : ""} {words.certified}
      </Notice>
    </>
  );
}

function raised({ before, after }: Change): boolean {
  return before.limit_kg !== null && after.limit_kg !== null && after.limit_kg > before.limit_kg;
}

/** The ratings that nobody has stated yet. */
function blank(changes: readonly Change[]): readonly Change[] {
  return changes.filter((one) => one.after.limit_kg === null && one.before.limit_kg === null);
}

/** "Vehicle, from 12 May 2026"; a trailer's plate with the trailer's name. */
export function nameOf(book: Book, plate_id: string): string {
  const body = book.plates.find((one) => one.id === plate_id)?.body ?? {};
  const day = body.date_from ? dayOf(`${body.date_from}T00:00:00Z`, "UTC") : null;
  const trailer = book.trailers.find((one) => one.id === body.trailer_id)?.body.name;
  const plain = words.plateOf(body.of, day, body.standing === "planned");
  return trailer ? `${trailer}: ${plain}` : plain;
}
