/** The fitter's first page: every vehicle shared with the workshop, planned against weighed. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { type Comparison, latestComparison } from "@/services/answers";
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
  const worst = worstOf(found);
  return (
    <>
      <p class="hint">{entry ? words.weighedOn(dayOf(entry.body.at, entry.body.zone)) : ""}</p>
      <GapTable gaps={found.gaps} />
      {found.planned ? <p>{unplannedWords(found)}</p> : <p>{words.noPlan}</p>}
      {worst ? (
        <p class={worst.verdict.word === "over" ? "desk-over" : ""}>
          {words.full(ratingName(worst.verdict.rating, null), verdictWords(worst.verdict))}
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

/** The rating with the least margin when all is full and aboard. */
function worstOf({ full }: Comparison): Comparison["full"][number] | undefined {
  const rated = full.filter((one) => one.verdict.margin_kg !== null);
  return rated.sort((a, b) => margin(a) - margin(b))[0];
}

function margin({ verdict }: Comparison["full"][number]): number {
  return (verdict.margin_kg ?? 0) - verdict.reach_kg;
}
