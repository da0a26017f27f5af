/** The plan's items as arrows on the beam. */
import type { Book } from "@/services/answers";
import type { Arrow } from "./marks";

/** Items on the vehicle, and on the trailer that is drawn behind it. */
export function arrowsOf(book: Book, trailer_id: string | null = null): Arrow[] {
  return book.items.flatMap(({ id, body }) => {
    const out = body.stage === "removed" || body.stage === "on_order" || body.taken_off;
    if (out || body.mass_kg == null || body.x_m == null) return [];
    if (body.trailer_id && body.trailer_id !== trailer_id) return [];
    const mass_kg = body.mass_kg * (body.count ?? 1);
    const on = body.trailer_id ? { trailer: true } : {};
    return [{ id, x_m: body.x_m, mass_kg, label: body.name, roof: Boolean(body.roof), ...on }];
  });
}
