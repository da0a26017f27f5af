/** The plan's items as arrows on the beam. */
import type { Book } from "@/services/answers";
import type { Arrow } from "./beam";

export function arrowsOf(book: Book): Arrow[] {
  return book.items.flatMap(({ id, body }) => {
    const out = body.stage === "removed" || body.stage === "on_order" || body.taken_off;
    if (out || body.trailer_id || body.mass_kg == null || body.x_m == null) return [];
    const mass_kg = body.mass_kg * (body.count ?? 1);
    return [{ id, x_m: body.x_m, mass_kg, label: body.name, roof: Boolean(body.roof) }];
  });
}
