/** Water on the device: the domain's estimator over an opened book. */
import type { Book } from "@/domain/book";
import { seconds } from "@/domain/log_rows";
import type { Finding } from "@/domain/placing";
import { presences, waterShare } from "@/domain/supplies";
import { DRINKING, floorDays } from "@/domain/water";
import { type Survival, survival, type WaterAnswer as Water, waterAnswer } from "@/domain/water_answer";
import { confidenceOf } from "./consumption";
import { readWater } from "./water_read";

/** For how many days, and what that rests on; the days are null while nobody is aboard. */
export interface WaterAnswer {
  readonly count_on_days: number | null;
  readonly likely_days: number | null;
  readonly floor_days: number | null;
  /** The same on what is known to be drinkable alone. */
  readonly drinkable_days: number | null;
  /** Days of drink alone, of what is known to be drinkable, by heat and work. */
  readonly drink_days: Readonly<Record<Heat, number | null>>;
  /** Each tank; what is kept apart is in none of the figures above. */
  readonly tanks: readonly {
    readonly tank_id: string;
    readonly litres: number;
    readonly litres_u: number;
    readonly drinkable: WaterAnswer["drinkable"];
    readonly apart: boolean;
  }[];
  readonly litres: number;
  readonly litres_u: number;
  readonly drinkable: "yes" | "no" | "unknown";
  readonly people: number;
  readonly l_per_person_day: number;
  readonly rate_u: number;
  readonly readings: number;
  readonly reserve_l: number;
  readonly findings: readonly Finding[];
}

/** The water answer at an instant; null without a tank or before the first entry. */
export function water(book: Book, now: string): WaterAnswer | null {
  const log = readWater(book, now);
  if (!log || log.journal.steps.length === 0) return null;
  const now_s = seconds(now);
  const found = waterAnswer({ log, now_s, p: confidenceOf(book) });
  const { count_on_days, likely_days, floor_days, litres } = found.stands;
  return {
    ...{ count_on_days, likely_days, floor_days },
    drinkable_days: found.drinkable.count_on_days,
    drink_days: drinkDays(found),
    tanks: found.tanks.map(({ tank_id, litres: { mean, u }, drinkable }) => ({
      ...{ tank_id, litres: mean, litres_u: u },
      drinkable: drinkable as WaterAnswer["drinkable"],
      apart: log.apart.some((one) => one.tank_id === tank_id),
    })),
    litres: litres.mean,
    litres_u: litres.u,
    drinkable: found.drinkable_word as WaterAnswer["drinkable"],
    people: found.people,
    l_per_person_day: found.rate.mean,
    rate_u: found.rate.u,
    readings: found.readings,
    reserve_l: found.reserve_l,
    findings: log.findings.filter((one) => one.standing !== "noted"),
  };
}

/** How hot it is and how hard the work, for drinking. */
export type Heat = keyof typeof DRINKING;

function drinkDays({ drinkable, people, reserve_l }: Water): WaterAnswer["drink_days"] {
  const litres_l = drinkable.litres.mean;
  const days = (rate_l: number) => floorDays({ litres_l, people, reserve_l, rate_l });
  const { rest, road, active, work } = DRINKING;
  return { rest: days(rest), road: days(road), active: days(active), work: days(work) };
}

/** Litres of drink a person and day, by heat and work. */
export const drinkRates: Readonly<Record<Heat, number>> = DRINKING;

/** A person or an animal, its share of an adult's water, and whether it is aboard. */
export interface Drinker {
  readonly id: string;
  readonly name: string;
  readonly share: number;
  readonly aboard: boolean;
}

export function drinkersAt(book: Book, now: string): Drinker[] {
  const at_s = seconds(now);
  return book.people.map((person) => {
    const alone = presences({ book: { ...book, people: [person] }, from_s: at_s });
    const aboard = alone.some((one) => one.from_s <= at_s && (one.until_s == null || at_s < one.until_s));
    return { id: person.id, name: person.body.name, share: waterShare({ person: person.body }), aboard };
  });
}

/** If nothing more comes: what may be drunk and for how long; null without a tank that water is drawn from. */
export function survivalAt(book: Book, now: string): Survival | null {
  const log = readWater(book, now);
  return log && survival({ log, now_s: seconds(now), p: confidenceOf(book) });
}

export type { Survival };
