/** The answer in a few words: how many moves, whether others are as good, or which ratings cannot be met. */
import type { JSX } from "preact";
import type { LeastChange, Question } from "@/services/change";
import { Notice } from "@/ui/parts/notice";
import { words } from "@/ui/text/change";
import { ratingName, type Terms } from "@/ui/text/ratings";

interface Props {
  readonly question: Question;
  readonly change: LeastChange;
  readonly terms: Terms | null;
}

export function Answer({ question, change, terms }: Props): JSX.Element {
  const { advice } = change;
  const percent = 100 * question.problem.confidence;
  if (change.before.length === 0) return <Notice>{words.noRating}</Notice>;
  if (advice.word === "within")
    return (
      <div class="answer">
        <strong>{words.within}</strong> {words.under(percent)}
      </div>
    );
  if (advice.word !== "found") return <Cannot {...{ question, change, terms }} />;
  return (
    <>
      <div class="answer">
        <strong>{words.moves(advice.moves)}</strong> {words.bring(advice.off_kg, percent)}
      </div>
      {advice.equals ? <p class="hint">{words.equals}</p> : null}
      {advice.exact ? null : <p class="hint">{words.notAll(advice.most_moves)}</p>}
    </>
  );
}

function Cannot({ question, change, terms }: Props): JSX.Element {
  const { advice } = change;
  const nothing = question.subjects.length === 0;
  return (
    <>
      <div class="answer">
        <strong>{words.cannot}</strong>
      </div>
      {advice.word === "not_found" ? (
        <Notice tone="warn">{words.notFound(advice.most_moves)}</Notice>
      ) : advice.unmet.length === 0 ? (
        <Notice tone="warn">{words.together}</Notice>
      ) : (
        advice.unmet.map(({ id, short_kg }) => (
          <Notice key={id} tone="warn">
            {id.includes(":") ? words.unmetFloor(id) : words.unmet(ratingName(id, terms), short_kg)}
          </Notice>
        ))
      )}
      <p>{nothing ? words.nothingMay : words.takeBack}</p>
    </>
  );
}
