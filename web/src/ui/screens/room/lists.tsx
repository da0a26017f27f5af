/** The curve in words, the roof and the trailer as figures of their own, and the ratings that are not known. */
import type { JSX } from "preact";
import { type Held, type Piece, type Room, roomThere } from "@/services/room";
import { styleOf } from "@/ui/parts/drawing/curve";
import type { BookView } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { ratingName, type Terms } from "@/ui/text/ratings";
import { limitName, words } from "@/ui/text/room";
import type { Named } from "./places";
import { keyOf } from "./room_beam";

interface StretchesProps {
  readonly pieces: readonly Piece[];
  readonly title: string;
  readonly terms: Terms | null;
}

export function Stretches({ pieces, title, terms }: StretchesProps): JSX.Element {
  return (
    <Section title={title}>
      {pieces.map((one) => (
        <div class="row" key={one.from_m}>
          <svg class="curve-sample" viewBox="0 0 44 12" aria-hidden="true">
            <path class="curve-line" stroke-dasharray={styleOf(keyOf(one.binds))} d="M0 6H44" />
          </svg>
          <span class="row-label">{one.binds ? limitName(one.binds, terms) : words.none}</span>
          <span class="row-figure">{words.fromTo(one.from_kg, one.to_kg)}</span>
          <span class="row-note">{words.between(one.from_m, one.to_m)}</span>
        </div>
      ))}
    </Section>
  );
}

interface OwnProps {
  readonly held: Held;
  readonly named: readonly Named[];
  readonly terms: Terms | null;
}

export function Own({ held, named, terms }: OwnProps): JSX.Element {
  const coupling = held.geometry.trailer
    ? [{ id: "coupling", label: words.coupledRow, where: "trailer" as const, x_m: 0 }]
    : [];
  const shown = [...named.filter((one) => one.where !== "vehicle"), ...coupling];
  const labels: Readonly<Record<string, string>> = { roof: words.roofRow, trailer: words.trailerRow };
  return (
    <Section title={words.own(held.geometry.trailer != null)}>
      {shown.map(({ id, label, where, x_m }) => {
        const room = roomThere(held, where, x_m);
        const note = reasonOf(held, room, terms);
        const unrated = where === "roof" && room.unknown.includes("roof") ? ` ${words.roofUnknown}` : "";
        return (
          <Row
            key={id}
            label={labels[id] ?? label}
            figure={words.most(room.most_kg)}
            note={`${note}${unrated}`}
          />
        );
      })}
    </Section>
  );
}

/** Why no more may go there: what is not under even now, else which limit comes first. */
export function reasonOf(held: Held, { already, binds }: Room, terms: Terms | null): string {
  if (already.length > 0)
    return words.already(
      held.already
        .filter((one) => already.some(({ rating, side }) => rating === one.rating && side === one.side))
        .map((one) => words.over(limitName(one, terms), one.over_kg, one.reach_kg)),
    );
  if (binds === null) return "";
  const name = limitName(binds, terms);
  return binds.side === "lower" ? words.firstLift(name) : words.first(name);
}

/** Never "no limit": what is not known is named, with the way to enter it. */
export function Unknown({
  view,
  held,
}: {
  readonly view: BookView;
  readonly held: Held;
}): JSX.Element | null {
  const blank = held.limits.filter((one) => one.limit_kg === null);
  const { missing } = held;
  if (blank.length + missing.length === 0) return null;
  return (
    <Section title={words.unknownTitle}>
      {blank.map(({ rating }) => (
        <p key={rating}>{words.unknown(ratingName(rating, view.terms))}</p>
      ))}
      {blank.length > 0 && view.role !== "co_driver" ? (
        <Row label={words.addPlate} to={`/b/${view.id}/plates`} />
      ) : null}
      {missing.length > 0 ? <p class="hint">{words.blanks(missing.length)}</p> : null}
    </Section>
  );
}
