/** The latest weighing under the ratings of a planned plate: the same values, the same whiskers, perhaps other words. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { type Anew, type Rating, whatIf } from "@/services/plates";
import type { BookView } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { dayOf } from "@/ui/text/figures";
import { words } from "@/ui/text/plates";
import { type Terms, verdictWords } from "@/ui/text/ratings";

interface Props {
  readonly view: BookView;
  readonly ratings: readonly Rating[];
  readonly today: readonly Rating[];
}

export function WhatIf({ view, ratings, today }: Props): JSX.Element {
  const found = useMemo(() => whatIf(view.book, ratings, today), [view.book, ratings, today]);
  if (!found) return <Notice>{words.notWeighed}</Notice>;
  return (
    <>
      <p class="hint">{words.above}</p>
      <Judgements
        title={words.weighedThen(dayOf(found.at, found.zone))}
        rows={found.day}
        terms={view.terms}
        quiet={false}
      />
      {found.full.map(({ trailer, rows }) => (
        <Judgements
          key={trailer ?? ""}
          title={words.fullThen(trailer)}
          rows={rows}
          terms={view.terms}
          quiet
        />
      ))}
    </>
  );
}

interface JudgementsProps {
  readonly title: string;
  readonly rows: readonly Anew[];
  readonly terms: Terms | null;
  readonly quiet: boolean;
}

function Judgements({ title, rows, terms, quiet }: JudgementsProps): JSX.Element | null {
  if (rows.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      {rows.map(({ now, then }) => (
        <div key={then.verdict.rating}>
          <VerdictRow judged={then} terms={terms} quiet={quiet} />
          {now.verdict.limit_kg === then.verdict.limit_kg ? null : (
            <p class="hint">{words.now(verdictWords(now.verdict))}</p>
          )}
        </div>
      ))}
    </>
  );
}
