/** What could explain the gap of a weighing: entries and readings, and masses that came out below zero. */
import type { Book } from "./book";
import { Unknown } from "./errors";
import { type Causes, likelyCauses, suspectsOf } from "./gross";
import { learn, teaches, type WeighedDay, weighedDays } from "./learning";
import { doubtfulMasses, nonnegativeMasses, type Possible } from "./nonnegative";
import { baseCorrelationOf, geometryOf, lastingOf, planned } from "./plan";
import { reconcile } from "./reconcile";

/** `causes` is null where nothing can be compared; `possible` is empty unless a mass came out below zero. */
export interface Explanation {
  readonly causes: Causes | null;
  readonly possible: readonly Possible[];
}

export interface Explain {
  readonly book: Book;
  readonly weighing_id: string;
  readonly known?: readonly WeighedDay[];
}

/** Which single entries or readings could explain what one weighing shows, over all weighings of the book. */
export function explain({ book, weighing_id, known = [] }: Explain): Explanation {
  const days = weighedDays({ book, known });
  const day = days.find((one) => one.visit.id === weighing_id);
  if (!day)
    throw new Unknown(
      "weighing_id",
      weighing_id,
      book.weighings.map((one) => one.id),
    );
  if (!planned({ book }) || !day.plan || !teaches(day)) return { causes: null, possible: [] };
  const posterior = reconcile({
    lasting: lastingOf({ book }),
    geometry: geometryOf({ book }),
    sessions: days.filter(teaches).flatMap((one) => one.session ?? []),
    base_correlation: baseCorrelationOf({ book }),
  });
  const lasting = new Set(day.plan.lasting.map((part) => part.id));
  const suspects = suspectsOf({ posterior }).filter(
    ({ id }) => id.startsWith(`${weighing_id}:`) || lasting.has(id),
  );
  return { causes: likelyCauses({ suspects }), possible: possibleOf(book, days) };
}

/** The most probable masses without negative ones, those that differ from the plain update by a kilogram. */
function possibleOf(book: Book, days: readonly WeighedDay[]): Possible[] {
  const { posterior, unlisted } = learn({ book, days });
  const free = unlisted.map((part) => part.id);
  const lasting = new Set(lastingOf({ book }).map((part) => part.id));
  const doubtful = new Set(doubtfulMasses({ posterior, free }).filter((id) => lasting.has(id)));
  if (doubtful.size === 0) return [];
  return nonnegativeMasses({ posterior, free }).filter(
    ({ id, now_kg, possible_kg }) =>
      lasting.has(id) && (doubtful.has(id) || Math.abs(possible_kg - now_kg) >= 1),
  );
}
