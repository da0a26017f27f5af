/** The plan's items as arrows on the beam, and where they are asked for its tanks and seats with what is in them. */
import type { Book, Planned } from "@/services/answers";
import type { Arrow } from "./marks";

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

/** Tanks and seats with what they weigh in a state; one that weighs nothing then is not drawn. */
export function contentsOf(book: Book, { plan }: Planned): Arrow[] {
  return [...book.tanks, ...book.seats].flatMap(({ id, body }) => {
    const own = plan.passing.filter((part) => part.id.startsWith(`${id}:`));
    const mass_kg = own.reduce((sum, part) => sum + part.mass_kg, 0);
    if (mass_kg === 0) return [];
    return [{ id, x_m: body.x_m, mass_kg, label: body.name, trailer: Boolean(body.trailer_id) }];
  });
}
