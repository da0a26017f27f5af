/** The moves written down: places and what leaves for good into the plan, what is left or let out today into the log. */
import type { Book, Row } from "@/services/answers";
import type { Move } from "@/services/change";
import type { Records } from "@/services/records";
import type { Edits, Wanted } from "@/ui/screens/plan/edits";
import { words } from "@/ui/text/change";

type Body = Row["body"];

/** The fields that put an item at one of the places it may move to. */
export function placed(item: Body, slot: number): Body {
  const { x_m, y_m = null, z_m = null, roof = false, trailer_id = null } = item.may_move_to[slot];
  return { x_m, y_m, z_m, roof: Boolean(roof), trailer_id };
}

/** New places, and with `removed_on` what is to leave the plan, in one step. */
export async function writePlan(
  book: Book,
  edits: Edits,
  moves: readonly Move[],
  removed_on: string | null,
): Promise<void> {
  await edits.several(wantedOf(book, moves, removed_on), words.step);
}

export function wantedOf(book: Book, moves: readonly Move[], removed_on: string | null): Wanted[] {
  return moves.flatMap(({ subject_id, choice }): Wanted[] => {
    const row = book.items.find((one) => one.id === subject_id);
    if (!row) return [];
    if (choice.kind === "slot" && choice.slot != null)
      return [{ kind: "item", row, body: placed(row.body, choice.slot) }];
    if (choice.kind === "off" && removed_on !== null)
      return [{ kind: "item", row, body: { stage: "removed", removed_on } }];
    return [];
  });
}

/** What stays behind, is let out or poured over today. */
export async function logToday(
  book: Book,
  records: Records,
  id: string,
  moves: readonly Move[],
): Promise<void> {
  for (const { subject_id, choice } of moves) {
    const entry = entryOf(book, subject_id, choice);
    if (entry) await records.log(id, entry.kind, entry.body);
  }
}

export function entryOf(
  book: Book,
  subject_id: string,
  { kind, litres_l, to_tank_id }: Move["choice"],
): { readonly kind: string; readonly body: Body } | null {
  if (kind === "off")
    return { kind: "aboard", body: { subject: "item", subject_id, aboard: false, why: "left" } };
  if (kind === "pour") return { kind: "transfer", body: { from_tank_id: subject_id, to_tank_id, litres_l } };
  if (kind !== "out") return null;
  const holds = book.tanks.find((one) => one.id === subject_id)?.body.holds;
  if (holds === "fuel")
    return { kind: "transfer", body: { from_tank_id: subject_id, out: "given_away", litres_l } };
  return { kind: "water", body: { tank_id: subject_id, action: "dump", litres_l, drinkable: "unknown" } };
}
