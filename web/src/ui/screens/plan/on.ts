/** What a field is chosen from that names another record of the book, and what an item is on. */
import type { Book, Row } from "@/services/answers";
import { words } from "@/ui/text/record";
import type { FieldSpec } from "./spec";

/** Where an item is: on the vehicle, on its roof, or on a trailer. */
export const ON: FieldSpec = { type: "choice", name: "on", label: words.onWhat, options: [] };

/** What a cell is chosen from; none where it is typed. */
export function optionsOf(column: FieldSpec, book: Book): readonly (readonly [string, string])[] {
  const named = (rows: readonly Row[]) => rows.map(({ id, body }) => [id, body.name as string] as const);
  if (column.name === "on") return [["", words.onVehicle], ["roof", words.onRoof], ...named(book.trailers)];
  if (column.type === "person") return [["", words.none], ...named(book.people)];
  return column.type === "choice" ? column.options : [];
}
