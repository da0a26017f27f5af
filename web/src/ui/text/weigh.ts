/** Words of the weighing screens. */
import { kg } from "./figures";

const AXLES: Readonly<Record<string, string>> = {
  front: "Front axle",
  rear: "Rear axle",
  rear_1: "First rear axle",
  rear_2: "Second rear axle",
  trailer: "Trailer axles",
  front_left: "Front left wheel",
  front_right: "Front right wheel",
  rear_left: "Rear left wheel",
  rear_right: "Rear right wheel",
};

const TOGETHER: Readonly<Record<string, string>> = {
  "front+rear": "Whole vehicle",
  "front+rear+trailer": "Vehicle and trailer",
  "front_left+rear_left": "Left wheels",
  "front_right+rear_right": "Right wheels",
};

/** What stood on the deck, and what was different: "Whole vehicle, uncoupled", "Rear axle, Mara out". */
export function stopText(on_deck: readonly string[], uncoupled = false, out: readonly string[] = []): string {
  const axles = [...on_deck].sort();
  const [first = words.stop.none, ...rest] = axles.map((axle) => AXLES[axle] ?? axle);
  const joined = [first, ...rest.map((one) => one.toLowerCase())].join(" and ");
  const name = TOGETHER[axles.join("+")] ?? joined;
  return [name, ...(uncoupled ? [words.uncoupled] : []), ...out.map(words.out)].join(", ");
}

export const words = {
  touchAxles: "Touch the axles that stand on the deck.",
  axle: (id: string) => AXLES[id] ?? id,
  stop: { none: "Nothing on the deck" },
  whichStop: "What stands on the deck?",
  stopHint: {
    trailer_off: "The trailer stays coupled, its wheels off the deck.",
    all: "All wheels on the deck, the trailer's too.",
    alone: "The trailer is off, and stands beside the deck.",
  },
  chip: { all: "With trailer", alone: "Uncoupled" },
  uncoupled: "uncoupled",
  out: (name: string) => `${name} out`,
  empty: (seat: string) => `${seat} empty`,
  different: "Different now?",
  asBefore: "as before",
  trailerOff: "Trailer uncoupled",
  trailerOn: (name: string) => `${name} is on`,
  personOut: (name: string) => `${name} is out`,
  doubted: (stop: string, before: number, now: number) =>
    `${stop}: ${kg(before)} before, ${kg(now)} now. Set the earlier figure aside?`,
  setAside: (before: number) => `Yes, set ${kg(before)} aside`,
  keepBoth: "No, keep both",
  readAgain: "read again, and the two differ",
  figure: "Figure on the display",
  take: "Take this reading",
  rollOff: "Roll off",
  takeAndRollOff: "Take it and roll off",
  whatOfIt: "What about it?",
  retype: "Type it again",
  countAgain: "Count it again",
  aside: (reason: string) => `Set aside: ${reason}`,
  reasons: ["it rolled while it was read", "brakes were on", "the figure is doubtful"],
  needAxle: "Touch at least one axle first.",
  needFigure: "Type the figure that the display shows.",
  disagree: (p: number | null) =>
    `These readings do not agree with each other${
      p === null || p >= 0.01 ? "" : ` (p ${p < 0.0001 ? "below 0.0001" : p.toFixed(4)})`
    }. Until one is repeated or set aside, the rows they touch cannot tell.`,
  glance: { under: "Under:", open: "Cannot tell:" },
  guide: {
    next: (stop: string, row: string) => `One more reading, ${stop}, would settle the ${row}.`,
    chance: (chance: number) => `in ${Math.round(chance * 100)} of 100 cases; touch it`,
    open: "it is not weighed yet; touch it",
    none: (rows: readonly string[]) =>
      `No further reading on this bridge is likely to settle the ${rows.join(", the ")}.`,
    far: (rows: readonly string[]) =>
      `Far from the plan: ${rows.join(", ")}. Is every figure as the display shows it? Touch a reading to type it again.`,
    repeat: (stop: string) => `Read the ${stop} again`,
    repeatNote: (value: string) => `${value} is set aside, and the stop is next`,
    slips: "Or did one of these happen? Touch one to type that figure again.",
    typeAgain: "type it again",
    swapped: (stop: string, typed: string, other: string) =>
      `${stop}: does the display show ${other} instead of ${typed}?`,
    pounds: (stop: string, digits: string, other: string) =>
      `${stop}: is ${digits} in pounds, which is ${other}?`,
    out: (stop: string, name: string) => `${stop}: was ${name} out?`,
    uncoupled: (stop: string) => `${stop}: was the trailer coupled or uncoupled otherwise than said?`,
    axles: (typed: string, other: string, stop: string) => `Is ${typed} the ${other}, and not the ${stop}?`,
  },
  state: {
    title: "Rolled off",
    ask: "Was this the state of the vehicle?",
    fuel: (name: string, litres: string) => `${name}: ${litres}`,
    confirm: "Yes, save as logged",
    correct: "Correct it first",
    people: "Aboard",
    nobody: "nobody",
    trailer: "Trailer",
    noTrailer: "none",
    coupled: (name: string) => `${name}, coupled`,
    isCoupled: (name: string) => `${name} coupled?`,
    away: (names: string) => `Left out: ${names}`,
    nothing: "No tanks or people are in the plan yet: the weighing is kept as it is.",
    isAboard: (name: string) => `${name} aboard?`,
    asLogged: "As logged",
    unknown: "not known",
    someone: "somebody",
    back: "Back to the deck",
    bridge: "The bridge",
    warm: "How warm is the fuel?",
    warmth: "Temperature of the fuel",
    warmHint: (usual: string, reach: number) =>
      `Leave it blank if nobody knows: then it counts as ${usual} °C. Typed, it counts ± ${reach} °C`,
    ticket: "Ticket number",
    save: "Save this weighing",
  },
};
