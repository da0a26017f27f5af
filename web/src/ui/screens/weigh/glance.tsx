/** All verdicts in a line or two, for a glance from the deck: what is over, what cannot be told, how many are under. */
import type { JSX } from "preact";
import type { Judged } from "@/services/answers";
import { ratingName, type Terms, verdictWords } from "@/ui/text/ratings";
import { words } from "@/ui/text/weigh";
import "./glance.css";

interface Props {
  readonly judged: readonly Judged[];
  readonly terms: Terms | null;
}

export function Glance({ judged, terms }: Props): JSX.Element | null {
  const of = (word: string) => judged.filter((one) => one.verdict.word === word);
  const names = (list: readonly Judged[]) =>
    list.map((one) => ratingName(one.verdict.rating, null).toLowerCase()).join(", ");
  const under = of("under");
  const open = of("cannot_tell");
  return (
    <div class="glance" role="status">
      {of("over").map((one) => (
        <p key={one.verdict.rating} class="glance-over">
          {ratingName(one.verdict.rating, terms)} <strong>{verdictWords(one.verdict)}</strong>
        </p>
      ))}
      {open.length > 0 ? (
        <p>
          {words.glance.open} {names(open)}
        </p>
      ) : null}
      {under.length > 0 ? (
        <p>
          {words.glance.under} {names(under)}
        </p>
      ) : null}
    </div>
  );
}
