/** The same shifted to "all full, all aboard", with a trailer on and without, and to the worst levels of the tanks. */
import type { JSX } from "preact";
import type { Book, Comparison, Judged } from "@/services/answers";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { words as changeWords } from "@/ui/text/change";
import { kg } from "@/ui/text/figures";
import { ratingName, type Terms, verdictWords } from "@/ui/text/ratings";
import { words } from "@/ui/text/weighing";

type Forecast = Comparison["forecasts"][number];

interface Props {
  readonly forecasts: readonly Forecast[];
  readonly book: Book;
  readonly terms: Terms | null;
}

export function Forecasts({ forecasts, book, terms }: Props): JSX.Element {
  return (
    <>
      {forecasts.map((one) => (
        <Section key={one.trailer_id ?? "solo"} title={words.fullWith(trailerName(book, one.trailer_id))}>
          {one.full.map((judged) => (
            <VerdictRow key={judged.verdict.rating} judged={judged} terms={terms} quiet />
          ))}
          {one.lifts.map((row) => (
            <p key={row}>{words.lifts[row]}</p>
          ))}
          <WorstLevels forecast={one} book={book} terms={terms} />
          {one.full.some(unsettled) ? (
            <Row
              label={changeWords.link}
              to={`/b/${book.vehicle?.id ?? ""}/change/${one.trailer_id ?? "full"}`}
            />
          ) : null}
          {known(one) > 1 ? (
            <p class="hint">{words.anyOver(one.any_over.least, one.any_over.greatest)}</p>
          ) : null}
        </Section>
      ))}
    </>
  );
}

/** Ratings for which other levels of the tanks are worse than full by a kilogram or more. */
function WorstLevels({
  forecast,
  book,
  terms,
}: Pick<Props, "book" | "terms"> & { readonly forecast: Forecast }): JSX.Element | null {
  const worse = forecast.worst.filter(({ verdict }) => {
    const full = forecast.full.find((one) => one.verdict.rating === verdict.rating);
    return full !== undefined && verdict.value_kg - full.verdict.value_kg >= 1;
  });
  if (worse.length === 0) return null;
  return (
    <ul class="hint">
      {worse.map(({ verdict, full }) => (
        <li key={verdict.rating}>
          {words.worse(
            ratingName(verdict.rating, terms),
            kg(verdict.value_kg),
            verdictWords(verdict),
            empty(book, full),
          )}
        </li>
      ))}
    </ul>
  );
}

/** The tanks that are empty there, of those that are full in the full state. */
function empty(book: Book, full: readonly string[]): string[] {
  return book.tanks
    .filter(({ id, body }) => !full.includes(id) && body.holds !== "grey" && body.holds !== "waste")
    .map((tank) => tank.body.name);
}

/** A rating that is over, or may be. */
export function unsettled({ verdict: { word } }: Judged): boolean {
  return word === "over" || word === "cannot_tell";
}

function trailerName(book: Book, id: string | null): string | null {
  return id === null ? null : (book.trailers.find((one) => one.id === id)?.body.name ?? "");
}

function known({ full }: Forecast): number {
  return full.filter((one) => one.verdict.limit_kg !== null).length;
}
