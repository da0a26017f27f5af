/** What is the matter with an entry of the log, in words: which entry, which figure, what would fit. */
import type { Book, Row } from "@/services/answers";
import type { Finding } from "@/services/consumption";
import { figure } from "./figures";
import { describe } from "./log";

const WHAT: Readonly<Record<string, string>> = {
  odometer_backwards: "its odometer runs backwards",
  fill_too_large: "that is more than the tank holds",
  twice_full: "two full fills at one odometer reading",
  beyond_tank: "that is further than the tanks reach; a fill may be missing",
  overfull: "the tank would hold more than it can; a leg may be missing or a capacity wrong",
  held: "it does not fit the other entries",
  can_short: "the can did not hold that much",
  uses_more: "from here on more is used than before; something may have changed",
  uses_less: "from here on less is used than before; something may have changed",
};

const STANDING: Readonly<Record<string, string>> = {
  refused: "Not used",
  held: "Held, and the lower answer stands",
  asked: "Used, but look at it",
};

const LOGGED = ["fills", "dips", "transfers", "waters"] as const;

/** "Held, and the lower answer stands: Fuel 410 L at 52 876 km, full. It does not fit … (410 L; 30 to 60 L would)." */
export function findingWords(finding: Finding, book: Book): string {
  const entry = LOGGED.flatMap((kind): readonly Row[] => book[kind]).find(
    (one) => one.id === finding.entry_id,
  );
  const said = entry ? ` ${describe(entry, book)}` : "";
  const why = WHAT[finding.code] ?? `${finding.field} cannot be used`;
  const standing = STANDING[finding.standing] ?? finding.standing;
  return `${standing}:${said}: ${why}${range(finding)}.`;
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
