/** The plan against the ratings, while something is moved as well. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { judgeLoads, type Planned, ratingsOf } from "@/services/answers";
import type { BookView } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/plan";

interface Props {
  readonly view: BookView;
  readonly found: Planned;
  readonly day: string;
  /** The trailer that is on in the state. */
  readonly on: string | null;
}

export function Ratings({ view, found, day, on }: Props): JSX.Element {
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
      {found.missing.length > 0 ? <p class="hint">{words.notCounted(found.missing.length)}</p> : null}
    </Section>
  );
}
