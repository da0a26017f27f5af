/** Words of the room left: how much may still go where, which limit comes first, and the answer to a typed mass. */
import { figure, kg, metres } from "./figures";
import { ratingName, type Terms, verdictWords } from "./ratings";

type Side = "upper" | "lower";

interface Judged {
  readonly side: Side;
  readonly verdict: {
    readonly rating: string;
    readonly word: "under" | "over" | "cannot_tell" | "not_known";
    readonly margin_kg: number | null;
    readonly value_kg: number;
    readonly reach_kg: number;
  };
}

const LIFTS: Readonly<Record<string, string>> = { front: "Front axle lifts", coupling: "Coupling lifts" };

/** "Rear axle", or of a lower limit "Front axle lifts". */
export function limitName(
  { rating, side }: { readonly rating: string; readonly side: Side },
  terms: Terms | null,
) {
  return side === "lower" ? (LIFTS[rating] ?? rating) : ratingName(rating, terms);
}

function inside(name: string): string {
  return name.charAt(0).toLowerCase() + name.slice(1);
}

/** "rear axle over by 12 kg (± 9)", "rear axle cannot tell, over by 3 kg (± 9)". */
function judgedWords({ side, verdict }: Judged, terms: Terms | null): string {
  const { word, margin_kg, reach_kg, rating } = verdict;
  const reach = `(± ${figure(reach_kg)})`;
  if (side === "lower") {
    const on = `${kg(verdict.value_kg)} left on it ${reach}`;
    const name = inside(ratingName(rating, terms));
    return word === "over"
      ? `${name} lifts`
      : `${name} ${word === "under" ? "stays down" : "cannot tell"}, ${on}`;
  }
  const name = inside(ratingName(rating, terms));
  if (word !== "cannot_tell") return `${name} ${verdictWords(verdict)} ${reach}`;
  return `${name} cannot tell, ${(margin_kg ?? 0) < 0 ? "over" : "under"} by ${kg(Math.abs(margin_kg ?? 0))} ${reach}`;
}

export const words = {
  title: "Room left",
  drawing: "The vehicle from the side, above it the mass that may still be added at each place",
  slide: "Place on the vehicle",
  restsOn: (weighed: boolean) =>
    weighed ? "From the plan as the weighings corrected it." : "From the plan alone: never weighed.",
  at: (x_m: number) => `at ${metres(x_m)}`,
  onTrailer: (x_m: number) => `on the trailer, ${metres(x_m)} behind the coupling`,
  onRoof: (x_m: number) => `on the roof at ${metres(x_m)}`,
  places: {
    tail: "On the tail",
    tray: "Front of the tray",
    hold: "Front of the load space",
    rear: "Over the rear axle",
    front: "On the front",
    roof: "On the roof",
    trailer: "Over the trailer's axle",
  } as Readonly<Record<string, string>>,
  /** The large answer: "80 kg", "nothing", "not known". */
  most: (most_kg: number | null) =>
    most_kg === null ? "not known" : most_kg < 1 ? "nothing" : kg(Math.floor(most_kg)),
  mayGo: (place: string, most_kg: number) => `may ${most_kg < 1 ? "" : "still "}go ${inside(place)}.`,
  cannotSay: (place: string) => `how much may go ${inside(place)}: no rating that it loads there is known.`,
  first: (name: string) => `${name} comes first.`,
  firstLift: (name: string) => `${name} first.`,
  already: (names: readonly string[]) => `Not under as it is: ${names.join(", ")}.`,
  /** "Rear axle over by 85 kg (± 13)": the load as it is. */
  over: (name: string, over_kg: number, reach_kg: number) =>
    `${name} ${over_kg < 0 ? "under" : "over"} by ${kg(Math.abs(over_kg))} (± ${figure(reach_kg)})`,
  exact: "For an exact mass. The line style says which rating comes first.",
  along: "Along the vehicle",
  alongTrailer: "Along the trailer, from the coupling",
  between: (from_m: number, to_m: number) => `${figure(from_m, 2)} to ${metres(to_m)}`,
  fromTo: (from_kg: number | null, to_kg: number | null) => {
    if (from_kg === null && to_kg === null) return "not known";
    const [a, b] = [from_kg, to_kg].map((one) => (one === null ? "any" : figure(Math.floor(one))));
    return a === b ? (a === "0" ? "nothing" : `${a}\u202fkg`) : `${a} to ${b}\u202fkg`;
  },
  none: "no known rating",
  own: (towed: boolean) => (towed ? "Roof and trailer" : "Roof"),
  roofRow: "Roof, midway between the axles",
  trailerRow: "Trailer, over its axle",
  coupledRow: "Trailer, on its coupling",
  roofUnknown: "No roof rating is known: as far as the axles go.",
  question: "May this go on the roof or the tail?",
  mass: "What does it weigh?",
  knownBy: "How is its mass known?",
  known: { weighed: "Weighed", data_sheet: "Data sheet", estimate: "Estimate" } as Readonly<
    Record<string, string>
  >,
  where: "Where?",
  x: "Metres behind the front axle",
  xi: "Metres behind the coupling",
  xHint: "Or touch the drawing. Typed metres count as measured (± 4 cm), the others as told (± 30 cm).",
  after: "Every rating after it",
  /** "40 kg on the tail: rear axle over by 12 kg (± 9); 28 kg would still be under." */
  answer: (
    mass: string,
    place: string,
    first: Judged | null,
    most_kg: number | null,
    terms: Terms | null,
  ) => {
    const head = `${mass} ${inside(place)}`;
    if (first === null || most_kg === null)
      return `${head}: cannot be said, no rating that it loads there is known.`;
    const would =
      most_kg < 1 ? "nothing would still be under" : `${kg(Math.floor(most_kg))} would still be under`;
    const all = first.verdict.word === "under" ? "every known rating stays under. First comes " : "";
    return `${head}: ${all}${judgedWords(first, terms)}; ${would}.`;
  },
  also: (names: readonly string[]) => `Not under either: ${names.join(", ")}.`,
  unknownTitle: "Not known",
  unknown: (name: string) => `${name}: no rating entered`,
  addPlate: "Enter it from the plate",
  blanks: (count: number) =>
    count === 1 ? "One blank of the plan is not counted." : `${count} blanks of the plan are not counted.`,
};
