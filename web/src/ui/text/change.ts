/** Words of the least change: what to move, leave or let out, and what it does. */
import { figure, kg, litres, metres, signedKg } from "./figures";

/** "rear axle − 48 kg, gross − 35 kg". */
function effects(list: readonly { readonly name: string; readonly kg: number }[]): string {
  return list.map((one) => `${inside(one.name)}\u00a0${signedKg(one.kg)}`).join(", ");
}

function inside(name: string): string {
  return name.charAt(0).toLowerCase() + name.slice(1);
}

function count(moves: number): string {
  return moves === 1 ? "1 move" : `${moves} moves`;
}

export const words = {
  title: "What to move",
  link: "What to move to be under",
  drawing: "The vehicle from the side: loads where they are and would go, axle loads after it",
  asWeighed: (day: string) => `As weighed ${day}`,
  objective: "What is to be least?",
  fewest: "The number of moves",
  leastOff: "What is left behind",
  within: "Nothing need move.",
  under: (percent: number) => `Every known rating is under at ${figure(percent)} %.`,
  moves: count,
  bring: (off_kg: number, percent: number) =>
    `to bring every known rating under at ${figure(percent)} %${off_kg < 0.5 ? ", nothing left behind" : `, ${kg(off_kg)} left behind`}.`,
  cannot: "Cannot be met",
  unmet: (name: string, short_kg: number) =>
    `${name}: over by ${kg(Math.max(1, Math.ceil(short_kg)))} with its ±, even with everything moved at its best for it.`,
  unmetFloor: (id: string) => `${words.floors[id] ?? id}: not even with everything moved at its best for it.`,
  together: "Each rating could be met by moving these, but not all of them together.",
  notFound: (most: number) => `Nothing found with up to ${count(most)}; more were not looked at.`,
  takeBack: "Take back what stays, or say in the plan what else may move.",
  noRating: "No rating is known that these could bring under.",
  nothingMay:
    "Nothing may be moved or left: say in the plan where a load may go and whether it may stay behind.",
  doing: "Working it out",
  round: (moves: number) => `Looking at choices with up to ${count(moves)}`,
  equals: "Other choices are as good.",
  notAll: (most: number) => `The best of all with up to ${count(most)}; more were not looked at.`,
  list: "The moves",
  /** "Leave jerry cans behind: 2 of 4" */
  some: (told: string, copies: number, count: number) =>
    count === 1 ? told : `${told}: ${copies === count ? `all ${count}` : `${copies} of ${count}`}`,
  each: "Each copy that moves counts as a move.",
  move: (name: string) => `Move ${name}`,
  leave: (name: string) => `Leave ${name} behind`,
  letOut: (name: string, l: number) => `Let ${litres(l)} out: ${name}`,
  fillLess: (name: string, l: number) => `Fill ${litres(l)} less: ${name}`,
  pour: (name: string, l: number, into: string) => `Pour ${litres(l)} from ${name} into ${into}`,
  place: (label: string, x_m: number, roof: boolean, trailer: string | null) =>
    label || `${roof ? "on the roof" : trailer ? `on ${trailer}` : ""} at ${metres(x_m)}`.trim(),
  effects,
  stays: "It stays",
  staysOf: (name: string) => `${name} stays`,
  staying: "Staying",
  mayAgain: "Touch to let it move again",
  ratings: "Every rating, before and after",
  same: "Every rating",
  rests: (weighed: boolean, day: boolean) =>
    `From the plan${weighed ? " and all weighings together" : " alone: never weighed"}.${day ? " The readings alone stand with the weighing." : ""}`,
  fromTo: (before: string, after: string) => `${before} → ${after}`,
  line: (before: string, after: string) => `before ${before}, after ${after}`,
  floors: {
    "front:least": "Front axle stays down",
    "coupling:least": "Coupling load",
    "coupling:share": "Coupling's share",
    "water:least": "Drinking water",
    "fuel:least": "Fuel",
  } as Readonly<Record<string, string>>,
  floorAfter: (id: string, met: boolean) =>
    id === "front:least" ? (met ? "stays down" : "may lift") : met ? "enough" : "too little",
  today: "Do it for today",
  plan: "Write it into the plan",
  step: "what was moved",
  written: "Written down. Weigh it again when you can.",
  byHand: "Water and fuel are not written into the plan.",
  notYours: "Places are written by the owner or the fitter.",
  kept: "What stays aboard",
  reserve: "Drinking water that stays",
  reserveHint: (l: number, per_day: number, days: number) =>
    `Blank is ${litres(l)}: ${per_day} L a day for each adult aboard, for ${days} days (South Australia, Remote Area Travel Information: at least 6 L, and 3 to 4 days' reserve). The emergency reserve is never touched.`,
  fuel: "May fuel be let out?",
  fuelHint: "8 L or a tenth stays (common practice).",
  coupling: "Least coupling load",
  couplingHint: (least: string | null) =>
    least === null ? "Blank: it only must not lift." : `Blank: ${least}, as the trailer's page says.`,
  never: "People, animals and what is kept aboard are never proposed; a part only where the plan says so.",
  keptAboard: (names: readonly string[]) =>
    `Kept aboard, by the plan or by the name: ${names.join(", ")}. To let one be proposed, say so on its page.`,
  unrated: (name: string, place: string, rating: string) =>
    `Not proposed: ${name} ${place}. No ${inside(rating)} rating is entered.`,
  unknown: (names: readonly string[]) => `Not entered, so not looked at: ${names.join(", ")}.`,
  toPlates: "Enter it from the plate",
  toPlan: "To the plan",
};
