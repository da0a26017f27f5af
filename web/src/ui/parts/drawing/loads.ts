/** The plan on the beam: items and seats as arrows, tanks as outlines with what is in them. */
import type { Book, State } from "@/services/answers";
import type { Planned } from "@/services/plan";
import { twoSided } from "@/ui/text/figures";
import { tankTold, words } from "@/ui/text/tank";
import type { Arrow } from "./marks";
import { sizeOf, type TankMark } from "./tanks";

/** Items on the vehicle, and on the trailer that is drawn behind it; `ordered` shows those on order too. */
export function arrowsOf(book: Book, trailer_id: string | null = null, ordered = false): Arrow[] {
  return book.items.flatMap(({ id, body }) => {
    const planned = body.stage === "on_order";
    if (body.stage === "removed" || (planned && !ordered) || body.taken_off) return [];
    if (body.mass_kg == null || body.x_m == null) return [];
    if (body.trailer_id && body.trailer_id !== trailer_id) return [];
    const mass_kg = body.mass_kg * (body.count ?? 1);
    return [{ id, x_m: body.x_m, mass_kg, label: body.name, planned, trailer: Boolean(body.trailer_id) }];
  });
}

/** Seats with what they weigh in a state; one that weighs nothing then is not drawn. */
export function seatsOf(book: Book, found: Planned): Arrow[] {
  return book.seats.flatMap(({ id, body }) => {
    const mass_kg = passingKg(found, id);
    if (mass_kg === 0) return [];
    return [{ id, x_m: body.x_m, mass_kg, label: body.name, trailer: Boolean(body.trailer_id) }];
  });
}

interface TanksIn {
  readonly trailer_id: string | null;
  /** For what they weigh in the state. */
  readonly found?: Planned | null;
}

/** Tanks that have a place, on the vehicle and on the trailer drawn behind it, with their levels in a state. */
export function tanksOf(
  book: Book,
  state: Pick<State, "tanks">,
  { trailer_id, found = null }: TanksIn,
): TankMark[] {
  return book.tanks.flatMap(({ id, body }) => {
    if (body.x_m == null || (body.trailer_id && body.trailer_id !== trailer_id)) return [];
    const known = state.tanks?.find((one) => one.tank_id === id && one.known_from !== "prior");
    const level = known ? { share: known.level, reach: twoSided(known.level_u) } : null;
    const size = sizeOf(body);
    return [
      {
        ...{ id, x_m: body.x_m, y_m: body.y_m ?? 0, label: body.name, size, level },
        mass_kg: found ? passingKg(found, id) : 0,
        trailer: Boolean(body.trailer_id),
        told: `${tankTold(body.name, body.capacity_l ?? null, level)}${size.assumed ? ` ${words.assumed}` : ""}`,
      },
    ];
  });
}

function passingKg({ plan }: Planned, id: string): number {
  const own = plan.passing.filter((part) => part.id.startsWith(`${id}:`));
  return own.reduce((sum, part) => sum + part.mass_kg, 0);
}
