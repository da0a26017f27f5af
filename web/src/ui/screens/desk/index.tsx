/** The fitter's first page: every vehicle shared with the workshop, planned against weighed. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { type Comparison, latestComparison, tightest } from "@/services/answers";
import { GapTable } from "@/ui/parts/gap_table";
import { Link } from "@/ui/parts/link";
import { type BookView, useBook, useBooks } from "@/ui/parts/live";
import { Screen } from "@/ui/parts/screen";
import { words } from "@/ui/text/desk";
import { dayOf, signedKg, twoSided } from "@/ui/text/figures";
import { ratingName, verdictWords } from "@/ui/text/ratings";
import "./desk.css";

export default function DeskScreen(): JSX.Element | null {
  const books = useBooks();
  if (!books) return null;
  return (
    <Screen title={words.title} back="/">
      <p class="hint">{words.intro}</p>
      {books.length === 0 ? <p>{words.empty}</p> : null}
      <div class="desk">
        {books.map((line) => (
          <Vehicle key={line.book} id={line.book} />
        ))}
      </div>
    </Screen>
  );
}

function Vehicle({ id }: { readonly id: string }): JSX.Element | null {
  const view = useBook(id);
  const found = useMemo(() => (view ? latestComparison(view.book) : null), [view?.book]);
  if (!view) return null;
  return (
    <article class="desk-vehicle">
      <h2>
        <Link to={found ? `/b/${id}/weighing/${found.weighing_id}` : `/b/${id}`}>{view.name}</Link>
      </h2>
      {found ? <Compared view={view} found={found} /> : <p class="hint">{words.notWeighed}</p>}
    </article>
  );
}

function Compared({ view, found }: { readonly view: BookView; readonly found: Comparison }): JSX.Element {
  const entry = view.book.weighings.find((one) => one.id === found.weighing_id);
  const tight = tightest(found);
  return (
    <>
      <p class="hint">{entry ? words.weighedOn(dayOf(entry.body.at, entry.body.zone)) : ""}</p>
      <GapTable gaps={found.gaps} />
      {found.planned ? <p>{unplannedWords(found)}</p> : <p>{words.noPlan}</p>}
      {tight ? (
        <p class={tight.judged.verdict.word === "over" ? "desk-over" : ""}>
          {words.full(
            ratingName(tight.judged.verdict.rating, null),
            verdictWords(tight.judged.verdict),
            view.book.trailers.find((one) => one.id === tight.trailer_id)?.body.name ?? null,
          )}
        </p>
      ) : null}
    </>
  );
}

function unplannedWords({ unplanned }: Comparison): string {
  if (!unplanned) return words.disagree;
  const mass = `${signedKg(unplanned.mass_kg)} ± ${Math.round(twoSided(unplanned.u_kg))}`;
  return unplanned.real ? words.unplanned(mass) : words.withinDoubt(mass);
}
