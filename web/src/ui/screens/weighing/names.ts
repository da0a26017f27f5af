/** What the parts of a plan are called, also those of records since deleted. */
import type { Book, Row } from "@/services/answers";
import { words } from "@/ui/text/weighing";

/** The name of a part by its id: an item, a tank's content, somebody in a seat, the empty vehicle or trailer. */
export function partName(book: Book, id: string): string {
  if (id === "forgotten") return words.forgotten;
  if (id === "base_front") return words.baseFront;
  if (id === "base_rear") return words.baseRear;
  if (id === "base_fuel") return words.baseFuel;
  if (id === "base_driver") return words.baseDriver;
  const [of = id, what = ""] = id.split(":");
  const name = nameIn([...book.items, ...book.tanks, ...book.seats, ...book.trailers, ...book.gone], of);
  if (what === "occupant") return words.inSeat(name ?? words.someSeat);
  if (what === "base_coupling") return words.baseCoupling(name ?? words.earlierItem);
  if (what === "base_axles") return words.baseAxles(name ?? words.earlierItem);
  return name ?? words.earlierItem;
}

function nameIn(rows: readonly Row[], id: string): string | null {
  return rows.find((one) => one.id === id)?.body.name ?? null;
}
