/** What plan and logs take for granted where a blank stands. */
import { type Assumed, assumed } from "@/domain/assumed";
import type { Book } from "@/domain/book";
import { type LogDefault, logDefaults } from "@/domain/log_defaults";
import { presentAt } from "./answers";

/** What the plan takes for granted, and which blank replaces it. */
export function assumedIn(book: Book): Assumed[] {
  return assumed({ book });
}

/** What the reading of the fuel or water log takes for granted. */
export function logDefaultsOf(book: Book, holds: "fuel" | "water", at: string): LogDefault[] {
  return logDefaults({ book, holds, trailers_on: presentAt(book, at).trailers_on });
}

export type { LogDefault };
