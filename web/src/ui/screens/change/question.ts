/** The question of the moment: the state, what was asked of it, and what the owner refused. */
import { useEffect, useMemo, useRef } from "preact/hooks";
import type { State } from "@/services/answers";
import { type Question, questionOf } from "@/services/change";
import { type BookView, useDraft, useServices } from "@/ui/parts/live";
import { dayOf } from "@/ui/text/figures";
import { type Asked, firstAsked, leastCouplingKg, type ReadAsked, readAsked, stateIn } from "./wish";

export interface Questioned {
  readonly asked: Asked;
  readonly change: (asked: Asked) => void;
  readonly state: State;
  readonly errors: ReadAsked["errors"];
  /** Null where the plan does not reach the state. */
  readonly question: Question | null;
  /** The day of the weighing that the page was opened from, if it was one. */
  readonly weighed: string | null;
}

/** `from` is the state to begin with: a weighing, a trailer that is on, "full" or "now". */
export function useQuestion({ id, book }: BookView, from: string): Questioned {
  const { answers, clock } = useServices();
  const entry = book.weighings.find((one) => one.id === from);
  const weighing = entry?.id ?? null;
  const draft = useDraft<Asked>(`change:${id}:${from}`, firstAsked(entry ? "weighed" : from));
  // what was asked survives a reload; it is dropped when the page is left, for nothing is to be saved
  const latest = useRef(draft);
  latest.current = draft;
  useEffect(() => () => void latest.current.drop(), []);
  const asked = draft.value;
  const now = clock.now();
  const state = useMemo(
    () => stateIn(book, asked, weighing, () => answers.stateAt(book, now)),
    [book, asked.state, weighing],
  );
  const { wishes, errors } = useMemo(
    () => readAsked(asked, leastCouplingKg(book, state)),
    [asked, book, state],
  );
  const question = useMemo(() => {
    const session = asked.state === "weighed" ? weighing : null;
    return questionOf(book, state, now.slice(0, 10), session, wishes);
  }, [book, state, JSON.stringify(wishes)]);
  const weighed = entry ? dayOf(entry.body.at, entry.body.zone) : null;
  return { asked, change: draft.change, state, errors, question, weighed };
}
