/** Words of the plan. */
export const PLATES: Readonly<Record<string, string>> = {
  vehicle: "Vehicle",
  towbar: "Towbar",
  coupling: "Coupling",
  trailer: "Trailer",
  rack: "Rack",
  tyres: "Tyres",
};

export const words = {
  title: "Plan",
  drawing: "The build on the vehicle: items as arrows, axle loads under the axles",
  state: "In which state?",
  full: "All full, all aboard",
  fullWith: (trailer: string) => `All full, all aboard, ${trailer} on`,
  asLogged: "As logged now",
  needBase:
    "For axle loads the plan needs the wheelbase and the empty mass on each axle. Touch the vehicle below.",
  needLever: (trailer: string) =>
    `With ${trailer} on, the plan needs where the coupling sits on the vehicle, and the trailer's coupling to axle and empty masses.`,
  ratings: "The plan against the ratings",
  notCounted: (count: number) =>
    count === 1
      ? "One blank is not counted."
      : `${count} blanks are not counted: they have no mass or no place yet.`,
  kinds: {
    vehicle: "Vehicle",
    trailer: "Trailers",
    plate: "Plates and ratings",
    item: "Items",
    tank: "Tanks",
    seat: "Seats",
    person: "People and animals",
  } as Readonly<Record<string, string>>,
  empty: {
    trailer: "No trailer. One that is towed is drawn and weighed with the vehicle.",
    plate: "No plate yet. A blank rating is not known, never no limit.",
    item: "No items yet. Each part and load has a mass and a place.",
    tank: "No tanks yet. Fuel and water need one each.",
    seat: "No seats yet.",
    person: "Nobody yet. Who travels counts in mass and in water.",
  } as Readonly<Record<string, string>>,
  plateOf: (of: string, date: string | null) => `${PLATES[of] ?? of}${date ? `, from ${date}` : ""}`,
  blank: "not known",
  noPlace: "no place yet",
  at: (place: string) => `at ${place}`,
  on: (trailer: string) => `on ${trailer}`,
  goneTrailer: "a trailer since removed",
  onOrder: "on order",
  whichBind: "Which rating is in force, and of which plate",
  more: "More about it",
  remove: "Take it out of the plan",
  save: "Save on this phone",
  look: "Not saved yet: look at the fields marked below.",
  none: "Nobody",
  needName: "It needs a name.",
  needChoice: "Choose one.",
  ask: (labels: readonly string[]) => `Did you mean ${labels.join(" or ")}?`,
  wrongCount: (label: string, text: string, low: number, high: number) =>
    `${label}: ${text} is not a whole number from ${low} to ${high}.`,
};
