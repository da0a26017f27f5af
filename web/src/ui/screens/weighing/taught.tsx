/** What the weighings taught: a picture per load over time, and each weighing in words. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Book, Row as Entry } from "@/services/answers";
import { type Taught, taughtOf } from "@/services/weighed";
import type { BookView } from "@/ui/parts/live";
import { Section } from "@/ui/parts/section";
import { dayOf, kg, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/weighed";
import { partName } from "./names";
import { Key, OverTime } from "./over_time";
import "./weighed.css";

interface Props {
  readonly view: BookView;
  readonly entry: Entry;
}

const ROWS = ["gross", "rear", "front"] as const;

export function WhatTheyTaught({ view, entry }: Props): JSX.Element | null {
  const lessons = useTaught(view.book);
  if (lessons.length === 0) return null;
  const dates = lessons.map((one) => dateOf(view, one));
  return (
    <div class="taught">
      <Section title={words.taught}>
        <p class="hint">{words.taughtHint}</p>
        <Key />
        <div class="taught-side">
          {ROWS.map((row) => (
            <OverTime key={row} row={row} lessons={lessons} here={entry.id} dates={dates} />
          ))}
        </div>
        <ol class="lessons">
          {lessons.map((one, i) => (
            <Lesson key={one.weighing_id} view={view} lesson={one} date={dates[i]!} />
          ))}
        </ol>
      </Section>
    </div>
  );
}

function dateOf({ book }: BookView, { weighing_id, at }: Taught): string {
  return dayOf(at, book.weighings.find((one) => one.id === weighing_id)?.body.zone ?? "UTC");
}

/** Computed once the page stands, since nothing above waits for it. */
function useTaught(book: Book): readonly Taught[] {
  const [found, setFound] = useState<readonly Taught[]>([]);
  useEffect(() => setFound(taughtOf(book)), [book]);
  return found;
}

interface LessonProps {
  readonly view: BookView;
  readonly lesson: Taught;
  readonly date: string;
}

function Lesson({ view, lesson, date }: LessonProps): JSX.Element {
  const gross = lesson.rows.find((one) => one.row === "gross")!;
  const figures = (["before", "after"] as const).map((stage) =>
    withReach(gross[`${stage}_kg`], twoSided(gross[`${stage}_u_kg`])),
  ) as [string, string];
  return (
    <li>
      <strong>{date}</strong>
      {lesson.counted ? (
        <>
          <span class="lesson-figures">
            {words.lesson}: <b>{words.before(figures[0])}</b> <b>{words.after(figures[1])}</b>
          </span>
          <span>{spokeOf(view, lesson)}</span>
        </>
      ) : (
        <span>{words.notCounted}</span>
      )}
      <span>{openOf(lesson)}</span>
    </li>
  );
}

function spokeOf(view: BookView, { items }: Taught): string {
  if (items.length === 0) return words.silent;
  const order = [...items].sort((a, b) => b.told - a.told);
  return words.spoke(order.map(({ id, told }) => words.share(partName(view.book, id), told)));
}

function openOf({ unexplained_kg, unexplained_u_kg }: Taught): string {
  const reach = twoSided(unexplained_u_kg);
  if (Math.abs(unexplained_kg) <= reach) return words.explained;
  return words.open(`${kg(unexplained_kg)} ±\u00a0${Math.round(reach)}`);
}
