/** One rating judged: its name, the word, the number line, and the figures behind it. */
import type { JSX } from "preact";
import type { Judged } from "@/services/answers";
import { figure, kg, withReach } from "@/ui/text/figures";
import { ratingName, type Terms, verdictWords, words } from "@/ui/text/ratings";
import { NumberLine } from "./drawing/number_line";
import "./verdict.css";

export interface VerdictRowProps {
  readonly judged: Judged;
  readonly terms: Terms | null;
  /** Where all rows come from the plan, the heading says so once. */
  readonly quiet?: boolean;
}

export function VerdictRow({ judged, terms, quiet = false }: VerdictRowProps): JSX.Element {
  const { verdict, source, why } = judged;
  const name = ratingName(verdict.rating, terms);
  const told = verdictWords(verdict);
  const figures = withReach(verdict.value_kg, verdict.reach_kg);
  const against =
    verdict.limit_kg === null ? words.noLimit(figures) : words.of(figures, kg(verdict.limit_kg));
  return (
    <div class={`verdict verdict-${verdict.word}`}>
      <div class="verdict-head">
        <span class="verdict-name">{name}</span>
        <strong class="verdict-word">{told}</strong>
      </div>
      {source === "none" || why === "readings_disagree" ? null : (
        <NumberLine
          value_kg={verdict.value_kg}
          reach_kg={verdict.reach_kg}
          limit_kg={verdict.limit_kg}
          limit_text={verdict.limit_kg === null ? "" : figure(verdict.limit_kg)}
          word={verdict.word}
          title={`${name}: ${told}. ${against}`}
        />
      )}
      <p class="verdict-figures">
        {why === "readings_disagree" ? words.disagree : source === "none" ? words.notWeighed : against}
        {source === "plan" && !quiet && why === null ? ` · ${words.fromPlan}` : ""}
      </p>
    </div>
  );
}
