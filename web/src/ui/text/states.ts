/** Words of the question which state is meant, and of what the plan lacks for it. */
export const words = {
  state: "In which state?",
  full: "All full, all aboard",
  fullWith: (trailer: string) => `All full, all aboard, ${trailer} on`,
  asLogged: "As logged now",
  needBase:
    "For axle loads the plan needs the wheelbase and the empty mass on each axle. Touch the vehicle below.",
  needLever: (trailer: string) =>
    `With ${trailer} on, the plan needs where the coupling sits on the vehicle, and the trailer's coupling to axle and empty masses.`,
  notCounted: (count: number) =>
    count === 1
      ? "One blank is not counted."
      : `${count} blanks are not counted: they have no mass or no place yet.`,
  levels: "What do the tanks hold?",
  asStated: "As in that state",
  anyLevel: "Anything, empty to full",
  anyHint: "Each rating is taken at the tank levels that are worst for it.",
};
