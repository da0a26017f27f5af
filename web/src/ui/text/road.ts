/** Words of the road: a route with its legs and supplies, what is left along it, and the loads. */
import { figure, kg, km, litres } from "./figures";
import { percent as chance } from "./fuel";

export const words = {
  title: "Road",
  link: "The road: fuel, water and loads along it",
  routes: "Routes",
  none: "No route yet. A route has legs with their surface, and supplies along them.",
  add: "New route",
  edit: "Legs, supplies, who travels",
  oneDistance: "One distance, without a route",
  distance: "Next certain supply is at",
  surface: "Surface until there",
  ahead: "Next supply",
  toGpx: "Supplies as a GPX file",
  where: "Where are you?",
  at: "You are at",
  atHint: (at: string) => `Kilometres along the route. Blank: ${at}, as the odometer tells.`,
  begun: "We set out now",
  fuel: "Fuel",
  water: "Water",
  loads: "Loads on the way",
  noLog: {
    fuel: "Nothing of fuel is logged yet: the first full tank starts it.",
    water: "Nothing of water is logged yet.",
  },
  countOn: (far: string) => `Count on ${far}`,
  reaches: (name: string) => `Count on reaching ${name}`,
  end: "the end",
  here: "here",
  likely: (far: string) => `likely ${far}`,
  likelyLeft: (left: string, least: string) => `likely ${left} left there, count on ${least}`,
  next: (name: string, at: string) => `next certain: ${name} at ${at}`,
  picture: (holds: string) => `${holds} over the distance, with the supplies as posts`,
  reserve: (left: string) => `reserve ${left}`,
  countTo: (at: string) => `count on ${at}`,
  noReturn: (at: string) => `no way back after ${at}`,
  short: "Short by the count-on figure",
  tight: (from: string, to: string) => `Tightest: ${from} to ${to}`,
  reached: (p: number) => `reached with ${chance(p)}`,
  take: (least: string) => `take on ${least}`,
  takeNothing: "nothing needed",
  arrive: (left: string, least: string, room: string) => `there with ${left}, count on ${least}; ${room} fit`,
  evenFull: (p: number, more: string) => `Even full: ${chance(p)}. ${more} more would have to be carried.`,
  strikeHint: "Touch a post or a name to strike that supply out: if it is shut.",
  kinds: { certain: "certain", uncertain: "uncertain, not counted on", struck: "struck out, not counted on" },
  post: (name: string, at: string, kind: string) => `${name}, ${at}, ${kind}`,
  keep: "Keep it like this in the route",
  back: "Put back as it was",
  restsOn: "Rests on",
  readings: (count: number) => (count === 0 ? "the prior alone" : `${count} full tanks and levels`),
  dayOf: (at: number) => `day ${figure(Math.floor(at) + 1)}`,
  nearest: (at: string, empty: string) => `nearest at ${at}${empty ? `, ${empty} empty` : ""}`,
  beginning: "the beginning",
  leastAt: (margin: number, at: string) => `least margin ${kg(margin)} at ${at}`,
  whichLoad: "Which load is drawn?",
  loadPicture: (name: string) => `${name} over the distance, with its rating`,
  rating: (value: string) => `rating ${value}`,
  noPlan: "Without a plan (wheelbase, empty masses) there are no loads along the way.",
  noRating: "No rating is entered: the loads are drawn without one.",
  stuck: {
    dry: (what: string, at: string) =>
      `${what} runs out at ${at} by the likely figure: loads are shown until there.`,
    overfull: (what: string, at: string, more: string) =>
      `${more} of ${what.toLowerCase()} do not fit at ${at}: loads are shown until there.`,
    grey_full: (what: string, at: string) =>
      `${what} is full at ${at}: empty it before. Loads are shown until there.`,
  },
  trouble: {
    at_km: (value: number) =>
      `${figure(value)} km lies beyond the end of the route. Look at its supplies and changes.`,
    from_km: (value: number) => `${figure(value)} km lies beyond the end of the route.`,
    mix: () => "The surfaces of a leg do not add up.",
  } as Readonly<Record<string, (value: number) => string>>,
};

export { kg, km, litres };
