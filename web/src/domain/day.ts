/** The day of a weighing: the state that it was made in, and the plan records that took part. */
import type { Book, Row } from "./book";
import { loggedState, type State, stateOfCopy } from "./state";
import { levelsAt } from "./supplies";

export interface DayOf {
  readonly book: Book;
  readonly weighing: Row;
}

/** The state that a weighing was made in: its own copy, or the log's where it has none. */
export function stateOf({ book, weighing }: DayOf): State {
  const copy = weighing.body.state;
  if (copy) return stateOfCopy({ copy });
  const { at } = weighing.body;
  return loggedState({ book, at, levels: levelsAt({ book, at }) });
}

/** The plan records that took part, by id; null where the weighing names none. */
export function revisionsOf({
  weighing,
}: {
  readonly weighing: Row;
}): Readonly<Record<string, string>> | null {
  const plan: readonly { readonly id: string; readonly rev: string }[] = weighing.body.state?.plan ?? [];
  return plan.length > 0 ? Object.fromEntries(plan.map((one) => [one.id, one.rev])) : null;
}
