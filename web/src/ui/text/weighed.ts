/** Words of the account, the change since last time, and what the weighings taught. */
import { dayOf } from "./figures";

const NAMES_AT_MOST = 4;
const TANKS: Readonly<Record<string, string>> = {
  fuel: "Fuel",
  water: "Water",
  grey: "Grey water",
  waste: "Waste",
  gas: "Gas",
  stores: "Stores",
};

const HOW: Readonly<Record<string, string>> = {
  new: "new on the list",
  removed: "taken off the list",
  aboard: "came aboard",
  away: "left behind",
  edited: "entered anew",
  moved: "in another seat",
  level: "",
};

export const words = {
  account: "Where the kilograms are",
  accountHint: "kg, ± 95 %. The lines add up to what the bridge showed.",
  asOf: "Plan as of",
  day: (day: string) => dayOf(`${day}T00:00:00Z`, "UTC"),
  by: (label: string, author: string) => `${label}, by ${author}`,
  somebody: "somebody",
  nameless: "not named here",
  unnamed: (count: number) => `${count} not named here`,
  lines: {
    plan: "The plan then, everything aboard",
    base: "Empty mass entered anew",
    new: "Added since",
    changed: "Changed since",
    removed: "Taken off since",
    left: "Left behind that day",
    forgotten: "Forgotten mass, as the plan counts it",
    people: "Aboard that day",
    trailer: "Trailer",
    coupling: "Trailer, on the coupling",
    unplanned: "Unplanned",
    bridge: "Weighbridge",
  } as Readonly<Record<string, string>>,
  tank: (holds: string, name: string | undefined) => name || (TANKS[holds] ?? holds),
  total: (day: string) => `Weighed, ${day}`,
  names: (names: readonly string[]) => {
    const rest = names.length - NAMES_AT_MOST;
    const shown = names.slice(0, rest > 1 ? NAMES_AT_MOST : names.length);
    return shown.join(", ") + (rest > 1 ? ` and ${rest} more` : "");
  },
  since: "Since last time",
  sinceHint: (day: string) => `Against the weighing of ${day}: kg, ± 95 %.`,
  thing: "What",
  rows: { front: "Front", rear: "Rear", gross: "Gross" } as Readonly<Record<string, string>>,
  how: (subject: string, how: string, author: string | null) => {
    const text = subject === "person" && how === "away" ? "not aboard this time" : (HOW[how] ?? how);
    return author ? `${text}, by ${author}` : text;
  },
  base: "Empty vehicle",
  listed: "By the list",
  bridged: "By the bridge",
  unexplained: "Not explained",
  within: "The difference is within what list and bridge leave open.",
  beyond:
    "The difference is more than list and bridge leave open: something came or went that no entry says.",
  taught: "What the weighings taught",
  taughtHint:
    "Per load: planned and weighed in the state of each day; between the lines, what is known of the full vehicle, ± 95 %.",
  picture: (row: string) => `${words.rows[row] ?? row}, kg`,
  pictured: (row: string, count: number, before: string, after: string) =>
    `${words.rows[row] ?? row}: full vehicle ${before} kg before the first of ${count} weighings, ${after} kg after the last`,
  keyPlan: "planned that day",
  keyWeighed: "weighed",
  keyFull: "full vehicle, as known then",
  lesson: "Full vehicle, gross",
  before: (figures: string) => `${figures} before,`,
  after: (figures: string) => `${figures} after`,
  notCounted: "Its readings do not agree: it taught nothing.",
  spoke: (items: readonly string[]) => `It spoke of ${items.join(", ")}.`,
  share: (name: string, told: number) => `${name} (${Math.round(told * 100)}\u00a0%)`,
  silent: "It said nothing of any single entry.",
  explained: "The entries explain the weighings so far.",
  open: (mass: string) => `${mass} that no entry explains.`,
  this: "this weighing",
};
