/** Words for what was heard or found of a supply. */
import type { Body, Report } from "@/services/road";
import type { BookView } from "@/ui/parts/watch";
import { momentOf } from "./figures";

export const words = {
  what: "What was found or heard there?",
  founds: { shut: "Shut", no_fuel: "No fuel", no_water: "No water", open: "Open again" },
  how: "How is it known?",
  howHint: "May stay blank",
  report: "Report it to everybody",
  openHint: "Open again is counted as the route says.",
  need: "Touch what was found.",
  whatIf: (shut: boolean) => `Only look: what if it is ${shut ? "open" : "shut"}?`,
  whatIfBack: "No longer what if",
  correct: "Correct this report",
  looking: (names: string) => `Only looking, nothing is saved: ${names}.`,
  say: (names: string) => `Report to everybody: ${names}`,
  is: (name: string, shut: boolean) => `${name} ${shut ? "is shut" : "is open again"}`,
  stray: "Reported, but on none of the routes",
};

const FOUND: Readonly<Record<string, string>> = {
  open: "open",
  shut: "shut",
  no_fuel: "without fuel",
  no_water: "without water",
};

/** "Dray Flat: shut". */
export function placeWords({ supply, found }: Body): string {
  return `${supply}: ${FOUND[found] ?? found}`;
}

/** "reported shut by Tevrin, 12 May 14:20: the pump is broken". */
export function saidWords(report: Report, { members }: Pick<BookView, "members">, zone: string): string {
  const by = members.find((one) => one.user === report.author)?.name;
  const told = `reported ${FOUND[report.found] ?? report.found}${by ? ` by ${by}` : ""}, ${momentOf(report.at, zone)}`;
  return report.note ? `${told}: ${report.note}` : told;
}
