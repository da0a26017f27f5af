/** The plan against the ratings, while something is moved as well. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import type { Judged } from "@/services/answers";
import { judgeLoads, type Planned, ratingsOf } from "@/services/plan";
import type { BookView } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { signedKg, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/plan";
import { ratingName, verdictWords } from "@/ui/text/ratings";
import { words as states } from "@/ui/text/states";

interface Props {
  readonly view: BookView;
  readonly found: Planned;
  readonly day: string;
  /** The trailer that is on in the state. */
  readonly on: string | null;
  readonly ordered: boolean;
  readonly beside: Planned | null;
}

export function Ratings({ view, found, day, on, ordered, beside }: Props): JSX.Element {
  const { book, terms } = view;
  const ratings = useMemo(() => ratingsOf({ book, day, trailer_id: on }), [book, day, on]);
  const judged = judgeLoads(book, found.loads, ratings);
  const { cg_x_m, cg_u_m } = found;
  return (
    <Section title={words.ratings}>
      {judged.map((one) => (
        <VerdictRow key={one.verdict.rating} judged={one} terms={terms} quiet />
      ))}
      {cg_x_m === null ? null : (
        <Row label={words.centre} figure={`${withReach(cg_x_m, twoSided(cg_u_m), 2)}\u202fm`} />
      )}
      {beside ? (
        <Beside
          view={view}
          judged={judged}
          others={judgeLoads(book, beside.loads, ratings)}
          ordered={ordered}
        />
      ) : null}
      {found.missing.length > 0 ? <p class="hint">{states.notCounted(found.missing.length)}</p> : null}
    </Section>
  );
}

interface BesideProps {
  readonly view: BookView;
  readonly judged: readonly Judged[];
  readonly others: readonly Judged[];
  readonly ordered: boolean;
}

/** What the parts on order add to each rating, and what it says in the other build. */
function Beside({ view, judged, others, ordered }: BesideProps): JSX.Element {
  const rows = judged.flatMap(({ verdict }) => {
    const other = others.find((one) => one.verdict.rating === verdict.rating)?.verdict;
    return other ? [{ other, kg: (ordered ? 1 : -1) * (verdict.value_kg - other.value_kg) }] : [];
  });
  return (
    <>
      <h3 class="plan-beside">{words.onOrderAdds}</h3>
      {rows.map(({ other, kg }) => (
        <Row
          key={other.rating}
          label={ratingName(other.rating, view.terms)}
          figure={signedKg(kg)}
          note={ordered ? words.without(verdictWords(other)) : words.thenSays(verdictWords(other))}
        />
      ))}
    </>
  );
}
