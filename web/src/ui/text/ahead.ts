/** Words for what comes next along the planned route. */
import type { NextSupply } from "@/services/way";
import { days as daysWords, km, litres } from "./figures";
import { words as fuel, percent, reachWords } from "./fuel";

const APPROX: Readonly<Record<"place" | "position" | "typed", (at: string, off_km?: number) => string>> = {
  place: (at) => `${at}, from the place you chose`,
  typed: (at) => `${at}, from what you typed`,
  position: (at, off_km = 0) => `About ${at}, by position, ${km(off_km)} beside the way`,
};

export const words = {
  group: { fuel: "Next fuel on the route", water: "Next water on the route" },
  where: "Where on the route are you?",
  how: APPROX,
  byOdometer: (at: string, begun: boolean) => (begun ? `${at}, by the odometer` : `${at}: not set out yet`),
  position: "Ask this device's position",
  atPlace: (name: string, at: string) => `At ${name}, ${at}`,
  beginning: "the beginning",
  looking: "The device looks where it is.",
  noPosition: "The device gave no position: choose a place instead.",
  which: "Which route?",
  noRoute: "None of them",
  whole: (name: string) => `The whole way: ${name}`,
  end: "the end",
  untowed: "without a trailer",
  leaving: (names: string) => `Without ${names} and what its tanks hold, as the route is planned.`,
  adding: (names: string) => `With ${names} and what its tanks hold, as the route is planned.`,
  towed: (towed_km: number, whole_km: number) =>
    towed_km > whole_km - 0.5 ? "towing" : `towing for ${km(towed_km)}`,
  next: { fuel: "Next fuel: ", water: "Next water: " },
  noneCertain: "none certain to the end",
  ifShut: (name: string, then: string) => `If ${name} is shut: ${then}`,
};

/** "Dray Flat, 150 km on.", and whether it is reached. */
export function nextWords(
  name: string | null,
  { distance_km, probability: p }: NextSupply,
  days: number | null,
  confidence: number,
): [string, string] {
  const far =
    days === null ? `${km(distance_km)} on` : `${km(distance_km)} on, ${daysWords(days)} as planned`;
  const headline = `${name ?? words.noneCertain}, ${far}.`;
  return [headline, reachWords(p, confidence)];
}

/** What to take on here so that it can be counted on; nothing where that is so already. */
export function takeWords(
  holds: "fuel" | "water",
  { probability, least_l, room_l, full_probability }: NextSupply,
  confidence: number,
): string {
  if (probability >= confidence) return "";
  if (least_l === null) return `Whatever ${holds} is taken on here, it cannot be counted on.`;
  const least = litres(Math.ceil(least_l));
  if (least_l <= room_l) return `Take on at least ${least} here to count on it.`;
  const more = litres(Math.ceil(least_l - room_l));
  return `Even full here: ${percent(full_probability)}. ${more} more would have to be carried.`;
}

/** "120 km sealed, 30 km gravel, towing." `towed_km` is null where there is no trailer. */
export function surfaceList(
  surfaces: readonly (readonly [string, number])[],
  towed_km: number | null = null,
): string {
  const parts = surfaces.map(
    ([surface, far]) => `${km(far)} ${(fuel.surfaces[surface] ?? surface).toLowerCase()}`,
  );
  const whole_km = surfaces.reduce((sum, [, far]) => sum + far, 0);
  const towing =
    towed_km === null ? [] : towed_km < 0.5 ? [words.untowed] : [words.towed(towed_km, whole_km)];
  return parts.length > 0 ? `${[...parts, ...towing].join(", ")}.` : "";
}
