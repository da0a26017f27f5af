/** What records are called, also those since deleted; and who wrote them. */
import type { BookView } from "@/ui/parts/live";
import { words as accountWords } from "@/ui/text/weighed";
import { words } from "@/ui/text/weighing";

export function nameOf({ book }: BookView, id: string): string {
  if (id === "forgotten") return words.forgotten;
  if (id === "" || id === book.vehicle?.id) return accountWords.base;
  const rows = [...book.items, ...book.tanks, ...book.people, ...book.seats, ...book.trailers, ...book.gone];
  return rows.find((row) => row.id === id)?.body.name || accountWords.nameless;
}

export function authorOf({ members }: BookView, author: string | null): string {
  return members.find((one) => one.user === author)?.name ?? accountWords.somebody;
}
