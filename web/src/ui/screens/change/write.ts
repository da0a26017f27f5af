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

/**
 * New places, and with `removed_on` what is to leave the plan, in one step; what of several copies goes becomes a record
 * of its own, also where it only stays behind today. Gives the ids of these, by the thing that they are of.
 */
export async function writePlan(
  book: Book,
  edits: Edits,
  moves: readonly Move[],
  removed_on: string | null,
): Promise<ReadonlyMap<string, string>> {
  const wanted = moves.flatMap((move) =>
    wantedOf(book, move, removed_on).map((one) => ({ ...one, of: move.subject_id })),
  );
  const ids = await edits.several(wanted, words.step);
  return new Map(wanted.flatMap(({ row, of }, i) => (row === null ? [[of, ids[i]!]] : [])));
}

/** How many copies stay where they are. */
function staying({ body }: Row, { copies = 0 }: Move["choice"]): number {
  return copies > 0 ? (body.count ?? 1) - copies : 0;
}

/** Whether some copies of a thing move and others stay. */
export function isSome(book: Book, { subject_id, choice }: Move): boolean {
  const row = book.items.find((one) => one.id === subject_id);
  return row !== undefined && staying(row, choice) > 0;
}

function wantedOf(book: Book, { subject_id, choice }: Move, removed_on: string | null): Wanted[] {
  const row = book.items.find((one) => one.id === subject_id);
  if (!row) return [];
  const slot = choice.kind === "slot" && choice.slot != null ? placed(row.body, choice.slot) : null;
  const leaves = removed_on === null ? null : { stage: "removed", removed_on };
  const change = slot ?? (choice.kind === "off" ? leaves : null);
  const stays = staying(row, choice);
  if (stays > 0) return split(row, stays, change ?? {});
  return change ? [{ kind: "item", row, body: change }] : [];
}

/** Copies of one unknown mass stay so in two records: they are of one article. */
function split(row: Row, stays: number, change: Body): Wanted[] {
  const { deleted: _, as_typed = {}, ...body } = row.body;
  const tied = body.weighed_singly || body.article_id ? {} : { article_id: row.id };
  const kept = Object.entries(as_typed).filter(([name]) => !(name in change));
  const goes = { ...body, ...tied, ...change, count: (body.count ?? 1) - stays };
  const typed = kept.length > 0 ? { as_typed: Object.fromEntries(kept) } : {};
  const filled = Object.entries({ ...goes, ...typed }).filter(([, value]) => value !== null);
  return [
    { kind: "item", row, body: { count: stays, ...tied } },
    { kind: "item", row: null, body: Object.fromEntries(filled) },
  ];
}

/** What stays behind, is let out or poured over today; `apart` are the records that `writePlan` has made. */
export async function logToday(
  book: Book,
  records: Records,
  id: string,
  moves: readonly Move[],
  apart: ReadonlyMap<string, string>,
): Promise<void> {
  const entries = moves.flatMap((move) => {
    const subject = isSome(book, move) ? apart.get(move.subject_id) : move.subject_id;
    const entry = subject === undefined ? null : entryOf(book, subject, move.choice);
    return entry ? [{ book: id, ...entry }] : [];
  });
  if (entries.length > 0) await records.logAll(entries);
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
