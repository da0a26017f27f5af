/** Words of a weighing's page. */
const FIELDS: Readonly<Record<string, string>> = {
  mass_kg: "mass",
  x_m: "place",
  wheelbase_m: "wheelbase",
  capacity_l: "capacity",
  base_front_kg: "empty mass, front",
  base_rear_kg: "empty mass, rear",
};

function percent(chance: number): string {
  if (chance < 0.005) return "below 1 %";
  return chance > 0.995 ? "above 99 %" : `${Math.round(chance * 100)} %`;
}

export const words = {
  title: "Weighing",
  drawing: "The vehicle from the side, with its axle loads",
  log: "Log",
  gone: "This weighing is not in the book, or it has been corrected.",
  day: "As weighed",
  fullWith: (trailer: string | null) =>
    trailer === null
      ? "All tanks full, everyone aboard, from the plan"
      : `All tanks full, everyone aboard, ${trailer} on, from the plan`,
  worse: (row: string, value: string, told: string, empty: readonly string[]) =>
    `${row} is heaviest with ${empty.join(" and ")} empty: ${value}, ${told}.`,
  anyOver: (least: number, greatest: number) => {
    const [low, high] = [percent(least), percent(greatest)];
    return low === high
      ? `The chance that any rating is exceeded is ${low}.`
      : `The chance that any rating is exceeded is between ${low} and ${high}.`;
  },
  lifts: {
    front: "The front axle lifts: its load is below zero.",
    coupling: "The trailer lifts the coupling: the load on it is below zero.",
  } as Readonly<Record<string, string>>,
  compared: "Planned against weighed",
  comparedHint: "The plan of that day in the state of that day, kg, ± 95 %.",
  row: "Load",
  planned: "Planned",
  weighed: "Weighed",
  gap: "Gap",
  warm: "Temperature of the fuel",
  readings: "Readings",
  bridge: "Bridge",
  noName: "no name",
  interval: "Interval",
  light: "Below this bridge's least load: no limit of error holds.",
  averaged: (count: number, mean: string) =>
    count === 2
      ? `Read twice: the mean, ${mean}, counts.`
      : `Read ${count} times: the mean, ${mean}, counts.`,
  setAside: (reason: string) => `set aside: ${reason}`,
  disagree:
    "These readings do not agree with each other. The rows they touch cannot tell until one is repeated or set aside.",
  noPlan: "No plan yet: there is nothing to compare with. The verdicts rest on the readings alone.",
  unplanned: (mass: string) => `${mass} unplanned`,
  less: (mass: string) => `${mass} less than planned`,
  between: (from: string, to: string) => `somewhere between ${from} and ${to} behind the front axle`,
  behind: (from: string, to: string) =>
    `somewhere behind the rear axle, ${from} to ${to} from the front axle`,
  ahead: (from: string, to: string) => `somewhere ahead of the front axle, ${from} to ${to} before it`,
  finding: {
    placed: "",
    too_small: "Cannot be placed: the difference is too small for this weighbridge and this plan.",
    no_single_mass: "No single mass aboard explains this: two differences, or a reading of the wrong axle.",
    anywhere: "It can sit anywhere on the vehicle.",
    total_only: "Only the total was weighed: it cannot be placed.",
  } as Readonly<Record<string, string>>,
  items: "What the weighings say of the items",
  itemsNothing: "These weighings say nothing about any single item.",
  itemsRest: (count: number) => `They say nothing about the other ${count}.`,
  item: "Item",
  plan: "Plan",
  now: "Now",
  told: "Told",
  forgotten: "Forgotten mass",
  baseFront: "Vehicle, front",
  baseRear: "Vehicle, rear",
  baseFuel: "Fuel in the empty mass",
  baseDriver: "Driver in the empty mass",
  baseCoupling: (trailer: string) => `${trailer}, on the coupling`,
  baseAxles: (trailer: string) => `${trailer}, on its axles`,
  inSeat: (seat: string) => `In the seat ${seat}`,
  someSeat: "since removed",
  earlierItem: "an item since removed",
  causes: {
    title: "Entries that could explain it",
    intro:
      "Each of these alone would explain the difference if it were wrong by so much. It may be any of them, or several.",
    weak: "No single entry stands out. These would do it, if wrong by so much.",
    readings: (names: readonly string[]) => `A wrong reading would explain it too: ${names.join(", ")}.`,
    possible: (name: string, mass: string) =>
      `${name} came out below nothing. The most probable mass that is not is ${mass}: look at the list first.`,
  },
  trailerMore: (mass: string) => `On the trailer: ${mass} unplanned`,
  trailerLess: (mass: string) => `On the trailer: ${mass} less than planned`,
  missing: "Not counted, since it is blank",
  besideNotHere:
    "The rest of this page is not on this phone yet: where the kilograms are, single wheels and items, the change since last time, what the weighings taught. Open it once with signal, and it stays.",
  field: (name: string) => FIELDS[name] ?? name,
};
