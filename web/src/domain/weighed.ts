/** One weighing beside its plan: what the account, the change since the last one and the lessons start from. */
import type { Geometry } from "./axles";
import type { Book, Row } from "./book";
import { revisionsOf } from "./day";
import { Unknown } from "./errors";
import { baseCorrelationOf, geometryOf, type Plan, planIn, reckoned } from "./plan";
import type { State } from "./state";
import { readVisit, type Visit } from "./visit";

/** A weighing read, with the plan of its day in the state of its day. */
export interface PlannedDay {
  readonly weighing: Row;
  readonly visit: Visit;
  readonly state: State;
  readonly revisions: Readonly<Record<string, string>> | null;
  readonly plan: Plan;
  readonly geometry: Geometry;
  readonly base_correlation: number;
}

export interface PlannedDayOf {
  readonly book: Book;
  readonly weighing_id: string;
}

/** A weighing with the plan of its day, or null where there is no plan; an unknown weighing is refused. */
export function plannedDay({ book, weighing_id }: PlannedDayOf): PlannedDay | null {
  const weighing = book.weighings.find((one) => one.id === weighing_id);
  if (!weighing || !book.vehicle)
    throw new Unknown(
      "weighing_id",
      weighing_id,
      book.weighings.map((one) => one.id),
    );
  const visit = readVisit({ book, weighing });
  const { state } = visit;
  if (!reckoned({ book, state })) return null;
  const revisions = revisionsOf({ weighing });
  return {
    weighing,
    visit,
    state,
    revisions,
    plan: planIn({ book, state, revisions }),
    geometry: geometryOf({ book, state }),
    base_correlation: baseCorrelationOf({ book }),
  };
}
