/** Loads along the way: each rating at its nearest place in words, and one of them drawn. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { RatingAlong, RoadLoads, Stuck } from "@/services/along";
import type { Book } from "@/services/answers";
import { Bands, type Post } from "@/ui/parts/drawing/bands";
import { Notice } from "@/ui/parts/notice";
import { SelectField } from "@/ui/parts/pick";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { figure } from "@/ui/text/figures";
import { ratingName, type Terms, verdictWords } from "@/ui/text/ratings";
import { kg, km, litres, words } from "@/ui/text/road";
import { words as states } from "@/ui/text/states";

interface Props {
  readonly loads: RoadLoads | null;
  readonly posts: readonly Post[];
  readonly book: Book;
  readonly terms: Terms | null;
}

export function Loads({ loads, posts, book, terms }: Props): JSX.Element {
  const [picked, setPicked] = useState<string | null>(null);
  if (!loads) return <Section title={words.loads}>{<p class="hint">{words.noPlan}</p>}</Section>;
  const { along, ratings, stuck, missing } = loads;
  const drawn = picked ?? nearestOf(ratings)?.verdict.rating ?? along.rows[0]!;
  return (
    <Section title={words.loads}>
      {stuck ? <Notice tone="warn">{stuckWords(stuck, book)}</Notice> : null}
      {ratings.length === 0 ? <p class="hint">{words.noRating}</p> : null}
      {ratings.map((one) => (
        <Rated key={one.verdict.rating} one={one} loads={loads} book={book} terms={terms} />
      ))}
      <SelectField
        label={words.whichLoad}
        value={drawn}
        options={along.rows.map((value) => ({ value, label: ratingName(value, terms) }))}
        onChange={setPicked}
      />
      <Drawn loads={loads} row={drawn} posts={posts} terms={terms} />
      {missing.length > 0 ? <p class="hint">{states.notCounted(missing.length)}</p> : null}
    </Section>
  );
}

function Rated({
  one,
  loads,
  book,
  terms,
}: {
  one: RatingAlong;
  loads: RoadLoads;
  book: Book;
  terms: Terms | null;
}) {
  const { verdict, chance_at, margin_at, margin_kg } = one;
  const { marks } = loads.along;
  const mark = marks[chance_at]!;
  const least =
    margin_at === chance_at || Math.abs(margin_kg - verdict.margin_kg!) < 0.5
      ? ""
      : `; ${words.leastAt(margin_kg, km(marks[margin_at]!.at_km))}`;
  const at = chance_at === 0 ? words.beginning : km(mark.at_km);
  const empty = mark.empty.map((id) => nameOf(book, id)).join(", ");
  return (
    <Row
      label={ratingName(verdict.rating, terms)}
      said={`${verdictWords(verdict)} (±\u00a0${figure(verdict.reach_kg)})`}
      note={words.nearest(at, empty) + least}
    />
  );
}

interface DrawnProps extends Pick<Props, "posts" | "terms"> {
  readonly loads: RoadLoads;
  readonly row: string;
}

function Drawn({ loads, row, posts, terms }: DrawnProps): JSX.Element {
  const { along, ratings } = loads;
  const k = along.rows.indexOf(row);
  const rated = ratings.find((one) => one.verdict.rating === row);
  // the whisker beside a verdict is z u, and so is the band
  const z = rated && rated.verdict.u_kg > 0 ? rated.verdict.reach_kg / rated.verdict.u_kg : 1.959964;
  const worst = rated ? along.marks[rated.chance_at]! : null;
  const points = along.marks.map(({ at_km, value_kg, u_kg }) => ({
    at_km,
    low: value_kg[k]! - z * u_kg[k]!,
    middle: value_kg[k]!,
    high: value_kg[k]! + z * u_kg[k]!,
  }));
  return (
    <Bands
      title={words.loadPicture(ratingName(row, terms))}
      from_km={points[0]!.at_km}
      to_km={points.at(-1)!.at_km}
      points={points}
      edge="high"
      least={null}
      floor={
        rated ? { value: rated.verdict.limit_kg!, label: words.rating(kg(rated.verdict.limit_kg!)) } : null
      }
      posts={posts}
      marks={worst ? [{ at_km: worst.at_km, label: km(worst.at_km) }] : []}
      figure={kg}
      km={km}
    />
  );
}

/** The rating with the least to spare beyond its whisker. */
function nearestOf(ratings: readonly RatingAlong[]): RatingAlong | null {
  const spare = ({ verdict }: RatingAlong) => verdict.margin_kg! - verdict.reach_kg;
  return [...ratings].sort((a, b) => spare(a) - spare(b))[0] ?? null;
}

function stuckWords({ what, tank_id, at_km, litres_l }: Stuck, book: Book): string {
  return words.stuck[what](nameOf(book, tank_id), km(at_km), litres(litres_l));
}

/** A tank's name, or what it holds. */
function nameOf(book: Book, id: string): string {
  if (id === "fuel" || id === "water") return words[id];
  return book.tanks.find((tank) => tank.id === id)?.body.name ?? id;
}
