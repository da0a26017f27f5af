/** What is the matter with an entry of the log, in words: which entry, which figure, what would fit. */
import type { Book, Row } from "@/services/answers";
import type { Finding } from "@/services/consumption";
import type { BookView } from "@/ui/parts/watch";
import { figure, km, litres, twoSided } from "./figures";
import { describe } from "./log";

export const words = {
  answers: "What is right?",
  further: (count: number) => `${count} more to look at`,
  asTyped: "It is right as typed",
  correct: "Correct it",
  addMissing: "Add the missing fill",
  oneMissing: "One is missing, I do not know how much",
  one: "One fill, logged twice",
  two: "No, two",
  strike: "Strike it out",
  mistyped: "Mistyped",
  surface: "It was another surface: correct it",
  changed: "Something on the vehicle has changed",
  hotter: "It has become hotter",
  washing: "More of us, or showers",
  notChanged: "Nothing has changed",
};

const WHY: Readonly<Record<string, string>> = {
  odometer_backwards: "its odometer runs backwards",
  twice_full: "two full fills at one odometer reading. The same fill?",
  overfull: "the tank would hold more than it can. Is the figure right, the way, the capacity?",
  held: "it does not fit the other entries",
  can_short: "the can did not hold that much",
  uses_more: "from here on more is used than before. What has changed?",
  uses_less: "from here on less is used than before. What has changed?",
};

const STANDING: Readonly<Record<string, string>> = {
  refused: "Not used",
  held: "Held, and the lower answer stands",
  asked: "Used, but look at it",
};

/** The entry of the log that a finding is about. */
export function entryOf(book: Book, id: string): Row | undefined {
  const known = ENTRIES.get(book);
  if (known) return known.get(id);
  const { fills, dips, transfers, waters, events } = book;
  const rows = [fills, dips, transfers, waters, events].flat();
  const entries = new Map(rows.map((one) => [one.id, one]));
  ENTRIES.set(book, entries);
  return entries.get(id);
}

const ENTRIES = new WeakMap<Book, ReadonlyMap<string, Row>>();

/** "Held, and the lower answer stands: Fuel 410 L at 52 876 km, full: it does not fit … (410 L; 30 to 60 L would)." */
export function findingWords(
  finding: Finding,
  { book, members }: Pick<BookView, "book" | "members">,
): string {
  const entry = entryOf(book, finding.entry_id);
  const said = entry ? ` ${describe(entry, book)}` : "";
  const standing = STANDING[finding.standing] ?? finding.standing;
  if (finding.code === "alike") {
    const other = entryOf(book, String(finding.value));
    const by = (row: Row | undefined) => members.find((one) => one.user === row?.author)?.name;
    const named = (row: Row | undefined) =>
      row ? [describe(row, book), by(row)].filter(Boolean).join(", ") : "";
    return `The same? ${named(other)} – and ${named(entry)}. Until you say, the lower answer stands.`;
  }
  if (finding.code === "beyond_tank")
    return `${standing}:${said}: ${km(Number(finding.value))} on ${litres(holding(book))} cannot be. Add the missing fill${missing(finding)}, or say that one is missing.`;
  if (finding.code === "fill_too_large")
    return `${standing}:${said}: ${litres(Number(finding.value))} ${entry?.kind === "transfer" ? "out of or into" : "into"} a tank of ${litres((finding.high ?? 0) / 1.1)} cannot be.`;
  const why = WHY[finding.code] ?? `${finding.field} cannot be used`;
  const lacks = finding.missing_l === null ? "" : ` Or a fill is missing before it${missing(finding)}.`;
  return `${standing}:${said}: ${`${why}${range(finding)}.`.replace("?.", "?")}${lacks}`;
}

/** " (about 93 L ± 8)", " (at least 40 L)". */
function missing({ missing_l, missing_u_l }: Finding): string {
  if (missing_l === null) return "";
  if (missing_u_l === null) return ` (at least ${litres(missing_l)})`;
  return ` (about ${litres(missing_l)} ± ${Math.round(twoSided(missing_u_l))})`;
}

/** What the tanks hold that fuel is drawn from. */
function holding(book: Book): number {
  const drawn = book.tanks.filter(({ body }) => body.holds === "fuel" && !body.can && !body.trailer_id);
  return drawn.reduce((sum, { body }) => sum + (body.capacity_l ?? 0), 0);
}

function range({ value, low, high, unit }: Finding): string {
  const text = (one: number) => figure(one, Math.abs(one) < 100 && unit !== "km" ? 1 : 0);
  const shown = typeof value === "number" ? text(value) : value;
  const fits =
    low !== null && high !== null
      ? `${text(low)} to ${text(high)}`
      : low !== null
        ? `at least ${text(low)}`
        : high !== null
          ? `at most ${text(high)}`
          : null;
  if (shown === null || fits === null) return "";
  return ` (${shown} ${unit}; ${fits} ${unit} would fit)`.replace(/ +([;)])/g, "$1");
}
