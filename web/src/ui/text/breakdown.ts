/** If we break down here: one text that can be read over a radio, word for word. */
import type { FuelAnswer } from "@/services/consumption";
import type { Body } from "@/services/road";
import type { Drinker, Survival, WaterAnswer } from "@/services/water";
import { days, figure, km, litres } from "./figures";

export const words = {
  title: "If we break down here",
  where: "Where are we?",
  whereHint: "A name, a track, a distance from somewhere known",
  look: "Take this device's position",
  noPosition: "The device gave no position. Type where you are.",
  more: "Anything else?",
  moreHint: "What is broken, who is hurt, what is needed",
  copy: "Copy this text",
  copied: "Copied.",
  notCopied: "It cannot be copied here: select the text and copy it by hand.",
  restsOn: "What the days rest on",
};

/** Where on a planned route, and the supplies around. */
export interface Way {
  readonly name: string;
  readonly at_km: number;
  readonly supplies: readonly { readonly supply: Body; readonly report: string }[];
}

export interface Situation {
  readonly vehicle: string;
  readonly form: string | null;
  readonly trailer: string | null;
  readonly drinkers: readonly Drinker[];
  readonly animals: ReadonlySet<string>;
  readonly survival: Survival | null;
  readonly fuel: FuelAnswer | null;
  readonly way: Way | null;
  readonly place: string;
  readonly more: string;
  readonly now: string;
  /** When this device last reached the server. */
  readonly contact: string | null;
}

const FORMS: Readonly<Record<string, string>> = {
  utility: "utility",
  wagon: "wagon",
  van: "van",
  cab_chassis: "cab-chassis",
};

/** The text, line by line: who, where, drinking water, fuel, vehicle, last contact. */
export function radioText(at: Situation): string[] {
  const form = at.form && FORMS[at.form] ? `, ${FORMS[at.form]}` : "";
  return [
    `Time: ${at.now}.`,
    `Place: ${at.place.trim() || "not said"}.`,
    ...wayText(at.way),
    `People: ${peopleText(at)}.`,
    ...waterText(at.survival),
    fuelText(at.fuel),
    `Vehicle: ${at.vehicle}${form}${at.trailer ? `, with trailer ${at.trailer}` : ""}.`,
    `Last contact: ${at.contact ?? "none from this device"}.`,
    ...(at.more.trim() ? [at.more.trim()] : []),
  ];
}

function wayText(way: Way | null): string[] {
  if (!way) return [];
  const near = way.supplies.map(({ supply, report }) => {
    const off_km = supply.at_km - way.at_km;
    const where = Math.abs(off_km) < 1 ? "here" : `${km(Math.abs(off_km))} ${off_km > 0 ? "ahead" : "back"}`;
    const left = (["fuel", "water"] as const).filter((one) => supply[one] && !supply[`${one}_shut`]);
    const told = report || (supply.certain ? "" : "not certain");
    return [`${supply.name} ${where}`, left.join(" and "), told].filter(Boolean).join(", ");
  });
  return [
    `Route: ${way.name}, about ${km(way.at_km)} along it.`,
    ...(near.length > 0 ? [`Nearest supplies: ${near.join("; ")}.`] : []),
  ];
}

function peopleText({ drinkers, animals }: Situation): string {
  const aboard = drinkers.filter((one) => one.aboard);
  if (aboard.length === 0) return "not entered";
  const beasts = aboard.filter((one) => animals.has(one.id)).length;
  const people = aboard.length - beasts;
  const counted = [`${people} ${people === 1 ? "person" : "people"}`];
  if (beasts > 0) counted.push(`${beasts} ${beasts === 1 ? "animal" : "animals"}`);
  return `${counted.join(" and ")}: ${aboard.map((one) => one.name).join(", ")}`;
}

function waterText(found: Survival | null): string[] {
  if (!found) return ["Drinking water: not logged."];
  const lasting = found.days === null ? "" : `, ${days(found.days)} at ${found.rate_l} L a person and day`;
  const doubtful =
    found.doubtful_l < 1 ? [] : [`Water not known to be drinkable: ${litres(Math.floor(found.doubtful_l))}.`];
  return [`Drinking water: at least ${litres(Math.floor(found.least_l))}${lasting}.`, ...doubtful];
}

function fuelText(fuel: FuelAnswer | null): string {
  if (!fuel) return "Fuel: not logged.";
  return `Fuel: about ${litres(fuel.litres)}, good for ${km(fuel.count_on_km)} on ${fuel.surface}${fuel.towing ? ", towing" : ""}.`;
}

/** What the days of drinking water rest on, and what they would be in heat. */
export function restsText(
  { rate_l, apart_l, people }: Survival,
  water: WaterAnswer | null,
  confidence: number,
): string[] {
  const heat = water?.drink_days.active ?? null;
  return [
    `${rate_l} L a person and day is drink and food at rest in mild weather (Sphere Handbook 2011).`,
    `People by their shares: ${figure(people, people % 1 === 0 ? 0 : 2)}. Litres are the least that the log lets expect at ${figure(100 * confidence)} %, with what is kept apart (${litres(apart_l)}).`,
    ...(heat === null ? [] : [`Active in the heat at 10 L the tanks alone last ${days(heat)}.`]),
    water?.readings === 0 || water === null
      ? "No level has been read yet: the log's entries alone."
      : `${water.readings} readings of the tanks.`,
  ];
}
