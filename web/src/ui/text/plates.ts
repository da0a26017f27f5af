/** Words of the page of plates and ratings. */
import { figure, kg } from "./figures";
import { PLATES } from "./plan";

function listed(names: readonly string[]): string {
  return names.join(", ");
}

export const words = {
  title: "Plates and ratings",
  inForce: "Ratings in force",
  ifPlanned: "Ratings if the planned plate were in force",
  withTrailer: "With which trailer?",
  noTrailer: "None",
  notKnown: "not known",
  unstated: "No plate states it.",
  alsoStated: (others: readonly string[]) => `Also stated: ${listed(others)}`,
  stated: (plate: string, value: number) => `${kg(value)} (${plate})`,
  plates: "Plates, newest first",
  none: "No plate yet. A blank rating is not known, never no limit.",
  add: "Add a plate",
  plateOf: (of: string, day: string | null, planned: boolean) =>
    `${PLATES[of] ?? of}${planned ? ", planned" : ""}${day ? `, from ${day}` : ""}`,
  planned: "Only planned",
  change: (name: string, before: number, after: number) => `${name} ${figure(before)} → ${kg(after)}.`,
  first: (name: string, after: number) => `${name} ${kg(after)}; not known before.`,
  same: (name: string, value: number) => `${name} ${kg(value)}, as before.`,
  stillBinds: (name: string, stated: number, other: string, binding: number) =>
    `${name}: it states ${kg(stated)}, but ${kg(binding)} of another plate still binds (${other}).`,
  unchanged: (names: readonly string[]) => `Unchanged: ${listed(names)}.`,
  stillUnknown: (names: readonly string[]) => `Not known, with it or without: ${listed(names)}.`,
  nothing: "It states no rating.",
  higherGross: "A higher gross rating raises neither combination, coupling nor roof.",
  leaves: (before: number, after: number) =>
    `Full to the gross rating, the combination leaves ${kg(after)} for the trailer's axles; it was ${kg(before)}.`,
  certified:
    "A re-rating is certified by the competent engineer or authority, not by a part or by this page.",
  whatIf: "What if it were in force?",
  above: "The list of ratings shows it too.",
  weighedThen: (day: string) => `As weighed ${day}, under those ratings`,
  fullThen: (trailer: string | null) =>
    `All tanks full, everyone aboard${trailer === null ? "" : `, ${trailer} on`}, under those ratings`,
  now: (told: string) => `now: ${told}`,
  notWeighed: "Nothing was weighed yet: there is nothing to judge anew.",
  size: "Size as read",
  rim: (code: string) => `rim ${code}`,
  unreadable:
    "The size cannot be read. Type it as it stands on the tyre: 265/70R17 121/118S, 7.50R16 or 31x10.5R15.",
  noIndex: "The load is not known: enter the load index, 60 to 130, for this number of tyres on an axle.",
  oneTyre: "Load of one tyre",
  index: (index: number) =>
    `Load index ${index}, at the pressure of the tyre's own table; less pressure carries less.`,
  oneAxle: (tyres: number) => `Load of one axle, ${tyres} tyres`,
  diameter: "Overall diameter",
  turns: (count: number) => `New and unloaded: ${figure(count, 1)} turns in a kilometre.`,
  speed: (symbol: string) => `speed symbol ${symbol}`,
  loads: (single: number, dual: number | null) =>
    `load index ${single}${dual === null ? "" : `, ${dual} for twin tyres`}`,
  odometer: (factor: string, before: string) =>
    `Odometer: ${factor} true km per indicated km if it read true before (${before}).`,
  assumed: "The ± is assumed: treads worn by anything up to 7 mm.",
  speedometer: (shown: number, most: number) =>
    `A speedometer that read true before shows ${figure(shown)} at a true 100 km/h. UN R39 has it show 100 to ${figure(most)}.`,
  isIn: "The vehicle counts with this factor.",
};
