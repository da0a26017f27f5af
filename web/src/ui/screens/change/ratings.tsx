/** Every rating before and after the moves, on one line each; and what must not be less. */
import type { JSX } from "preact";
import type { LeastChange } from "@/services/change";
import { NumberLine } from "@/ui/parts/drawing/number_line";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import "@/ui/parts/verdict.css";
import { words } from "@/ui/text/change";
import { figure, kg, withReach } from "@/ui/text/figures";
import { ratingName, words as ratings, type Terms, verdictWords } from "@/ui/text/ratings";

type Verdict = LeastChange["after"][number];

interface Props {
  readonly change: LeastChange;
  readonly terms: Terms | null;
}

export function BeforeAndAfter({ change, terms }: Props): JSX.Element {
  const { before, after, moves } = change;
  const floors = change.floors.filter((one) => !one.met_before || !one.met_after);
  return (
    <Section title={moves.length > 0 ? words.ratings : words.same}>
      {after.map((one, k) => (
        <RatingRow key={one.rating} before={before[k]!} after={one} terms={terms} />
      ))}
      {floors.map(({ id, met_before, met_after }) => (
        <Row
          key={id}
          label={words.floors[id] ?? id}
          said={words.fromTo(words.floorAfter(id, met_before), words.floorAfter(id, met_after))}
        />
      ))}
    </Section>
  );
}

interface RatingProps {
  readonly before: Verdict;
  readonly after: Verdict;
  readonly terms: Terms | null;
}

const SAME_KG = 0.5;

function RatingRow({ before, after, terms }: RatingProps): JSX.Element {
  const name = ratingName(after.rating, terms);
  const moved = Math.abs(after.value_kg - before.value_kg) >= SAME_KG;
  const told = moved ? words.fromTo(verdictWords(before), verdictWords(after)) : verdictWords(after);
  const figures = ratings.of(withReach(after.value_kg, after.reach_kg), kg(after.limit_kg ?? 0));
  return (
    <div class={`verdict verdict-${after.word}`}>
      <div class="verdict-head">
        <span class="verdict-name">{name}</span>
        <strong class="verdict-word">{told}</strong>
      </div>
      <NumberLine
        value_kg={after.value_kg}
        reach_kg={after.reach_kg}
        limit_kg={after.limit_kg}
        limit_text={figure(after.limit_kg ?? 0)}
        word={after.word}
        before={moved ? before : null}
        title={`${name}: ${words.line(verdictWords(before), verdictWords(after))}. ${figures}`}
      />
      <p class="verdict-figures">{figures}</p>
    </div>
  );
}
