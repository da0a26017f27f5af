/**
 * What may be moved, left behind, let out or poured over: only what the owner would do. People, animals, an emergency
 * reserve and what is kept aboard (`keptAboard`) are never proposed.
 */
import type { Body, Book, Row } from "./book";
import { checkRange } from "./errors";
import { itemPart } from "./parts";
import type { Plan } from "./plan";
import type { State, TankLevel } from "./state";
import type { Part } from "./statics";
import { waterShare } from "./supplies";

/** Helps in an emergency: words that names begin with, in lower case and one space apart (common practice, no source). */
export const EMERGENCY_WORDS: readonly string[] = [
  ...["first aid", "medic", "defibrillator", "beacon", "extinguisher", "fire blanket", "life jacket"],
  ...["recovery", "traction", "snatch", "shackle", "tow rope", "tow strap", "shovel"],
  ...["jack ", "jacks ", "wheel brace", "tyre repair", "tire repair"],
];
/**
 * Litres a person a day, and days kept back: at least 6, and 3 to 4 days' reserve (South Australia, Department of
 * Environment, Water and Natural Resources, Remote Area Travel Information).
 */
export const WATER_L = 6;
export const WATER_DAYS = 4;
/** Litres let out come in such steps, or coarser ones for a large tank (our choice). */
const STEP_L = 10;
const MOST_STEPS = 8;
const LEAST_STEP_L = 0.5;
/** Of more copies than these some go in steps (our choice). */
const MOST_COPIES = 8;

/** Whether an item is kept aboard, and why: its record says so (`stated`), or its `name` does, or nothing (`open`). */
export interface Keeping {
  readonly kept: boolean;
  readonly why: "stated" | "name" | "open";
}

/** What the owner will not do: one choice, or, without one, anything with that thing. */
export interface Refused {
  readonly subject_id: string;
  readonly choice_id?: string | null;
}

/**
 * One thing to do; `part` is what goes, at its new place, all `copies` of the item or so many of them, `slot` that
 * place's number in its record.
 */
export interface Choice {
  readonly id: string;
  readonly kind: "slot" | "off" | "out" | "pour";
  readonly slot?: number | null;
  readonly part?: Part | null;
  readonly to_tank_id?: string | null;
  readonly litres_l?: number;
  readonly copies?: number;
}

/** Something that may be moved, with its choices beside staying as it is. */
export interface Subject {
  readonly id: string;
  readonly kind: "item" | "tank";
  readonly choices: readonly Choice[];
}

/** A place that is not proposed because what it would load has no rating: the roof or the trailer. */
export interface Unrated {
  readonly subject_id: string;
  readonly slot: number;
  readonly rating: string;
}

/**
 * Whether an item's body keeps it aboard: no proposal leaves or moves it, whatever else the record says. `keep_aboard`
 * where it is stated, yes or no; else whether a word of the name begins one of `EMERGENCY_WORDS`.
 */
export function keptAboard({ item }: { readonly item: Body }): Keeping {
  const name = ` ${String(item.name ?? "")
    .toLowerCase()
    .replace(/[^a-z]+/g, " ")} `;
  const named = EMERGENCY_WORDS.some((word) => name.includes(` ${word}`));
  const stated = item.keep_aboard;
  if (stated != null) return { kept: Boolean(stated), why: "stated" };
  return { kept: named, why: named ? "name" : "open" };
}

export interface ItemSubjects {
  readonly book: Book;
  readonly state: State;
  readonly plan: Plan;
  readonly rated: readonly string[];
}

/**
 * The items aboard with where they may go, and the places left out for want of a rating in `rated`. Of several copies
 * some may go to one place, or all; never some here and some there (our choice).
 */
export function itemSubjects({ book, state, plan, rated }: ItemSubjects): [Subject[], Unrated[]] {
  const parts = new Map(plan.lasting.map((part) => [part.id, part]));
  const [subjects, unrated]: [Subject[], Unrated[]] = [[], []];
  for (const { id, body } of book.items) {
    const part = parts.get(id);
    if (!part || part.taken_off || keptAboard({ item: body }).kept) continue;
    const choices: Choice[] = [];
    for (const [slot, there] of placesOf(id, body, part, state)) {
      const rating = blankRating(there, rated);
      if (rating !== null) unrated.push({ subject_id: id, slot, rating });
      else
        for (const [name, copies] of some(`slot:${slot}`, part))
          choices.push({ id: name, kind: "slot", slot, part: at(id, body, slot, copies), copies });
    }
    if (mayStayBehind(body))
      for (const [name, copies] of some("off", part)) choices.push({ id: name, kind: "off", copies });
    if (choices.length > 0) subjects.push({ id, kind: "item", choices });
  }
  return [subjects, unrated];
}

/** How many of `count` copies may go: any number up to 8; of more in steps of 2, 4 and so on, and last all. */
export function copiesOffered({ count }: { readonly count: number }): number[] {
  checkRange("count", count, { low: 1 });
  let step = 1;
  while (count > MOST_COPIES * step) step *= 2;
  const out: number[] = [];
  for (let copies = step; copies < count; copies += step) out.push(copies);
  return [...out, count];
}

export interface TankSubjects {
  readonly book: Book;
  readonly state: State;
  readonly let_out?: readonly string[];
}

/** Tanks of fuel and water with what may be let out, of what `let_out` names, or poured into another of the kind. */
export function tankSubjects({ book, state, let_out = ["water"] }: TankSubjects): Subject[] {
  const there = book.tanks.filter((row) => isPourable(row, state));
  return there.flatMap((row): Subject[] => {
    const steps = stepsOf(row, state);
    const choices: Choice[] = let_out.includes(row.body.holds)
      ? steps.map((litres_l, n) => ({ id: `out:${n}`, kind: "out", litres_l }))
      : [];
    for (const other of there) {
      if (other.id === row.id || other.body.holds !== row.body.holds) continue;
      const room = roomL({ tank: other, state });
      for (const [n, litres_l] of steps.entries())
        if (litres_l <= room)
          choices.push({ id: `to:${other.id}:${n}`, kind: "pour", to_tank_id: other.id, litres_l });
    }
    return choices.length > 0 ? [{ id: row.id, kind: "tank", choices }] : [];
  });
}

export interface WithoutRefused {
  readonly subjects: readonly Subject[];
  readonly refused: readonly Refused[];
}

/** The subjects with the choices that were not refused; what has none left stays as it is. */
export function withoutRefused({ subjects, refused }: WithoutRefused): Subject[] {
  const said = (id: string, choice: string | null) =>
    refused.some((one) => one.subject_id === id && (one.choice_id ?? null) === choice);
  return subjects
    .filter((one) => !said(one.id, null))
    .map((one) => ({ ...one, choices: one.choices.filter((way) => !said(one.id, way.id)) }))
    .filter((one) => one.choices.length > 0);
}

export interface OfTank {
  readonly tank: Row;
  readonly state: State;
}

/** Litres in a tank by its level; 0 where the state does not say. */
export function contentL({ tank, state }: OfTank): number {
  const level = levelOf(state, tank.id);
  return level === undefined ? 0 : level.level * tank.body.capacity_l;
}

/** Litres that still go in. */
export function roomL({ tank, state }: OfTank): number {
  return Math.max(tank.body.capacity_l - contentL({ tank, state }), 0);
}

/** Litres of drinking water not to be let out: 6 L a day and adult aboard, for 4 days; see `WATER_L`. */
export function usualWaterReserve({ book, state }: { readonly book: Book; readonly state: State }): number {
  const people = new Map(book.people.map((row) => [row.id, row.body]));
  const shares = state.seats.map((load) => waterShare({ person: people.get(load.person_id ?? "") ?? {} }));
  return WATER_L * WATER_DAYS * shares.reduce((sum, share) => sum + share, 0);
}

/** The level that a state gives a tank. */
function levelOf(state: State, tank_id: string): TankLevel | undefined {
  return state.tanks.find((tank) => tank.tank_id === tank_id);
}

/** The item at each place that it may move to and is not at now, with the place's number. */
function* placesOf(id: string, body: Body, part: Part, state: State): Iterable<[number, Part]> {
  for (const [n, { trailer_id }] of ((body.may_move_to ?? []) as Body[]).entries()) {
    if (trailer_id && !state.trailers_on.includes(trailer_id)) continue;
    const there = at(id, body, n, part.copies ?? 1);
    const moved = there.x_m !== part.x_m || there.on !== part.on || there.roof !== part.roof;
    if (moved) yield [n, there];
  }
}

/** So many copies of an item at a place that it may move to. */
function at(id: string, body: Body, slot: number, count: number): Part {
  const { x_m, y_m, z_m, roof, trailer_id } = body.may_move_to[slot];
  return itemPart(id, { ...body, x_m, y_m, z_m, roof, trailer_id, count });
}

/** The copies that may go, each number with the name of its choice; all of them have the bare name. */
function some(name: string, { copies: count = 1 }: Part): [string, number][] {
  return copiesOffered({ count }).map((copies) => [copies === count ? name : `${name}:${copies}`, copies]);
}

/** The rating that a place needs and that nobody has entered: blank is not known, never no limit. */
function blankRating({ roof, on }: Part, rated: readonly string[]): string | null {
  if (roof && on === "vehicle" && !rated.includes("roof")) return "roof";
  const towed = rated.includes("trailer") || rated.includes("trailer_axles");
  return on !== "vehicle" && !towed ? "trailer" : null;
}

function mayStayBehind({ may_stay_behind, nature }: Body): boolean {
  return may_stay_behind != null ? Boolean(may_stay_behind) : nature === "load";
}

function isPourable({ id, body }: Row, state: State): boolean {
  const level = levelOf(state, id);
  const known = body.capacity_l != null && body.x_m != null;
  const here = !body.trailer_id || state.trailers_on.includes(body.trailer_id);
  const stated = level !== undefined && level.known_from !== "prior";
  return known && here && stated && ["fuel", "water"].includes(body.holds) && !body.emergency_reserve;
}

/** 10 L, 20 L and so on, in at most eight steps, and last all that is in it. */
function stepsOf(tank: Row, state: State): number[] {
  const held = contentL({ tank, state });
  let step = STEP_L;
  while (held > MOST_STEPS * step) step *= 2;
  const out: number[] = [];
  for (let n = 1; n * step < held - LEAST_STEP_L; n++) out.push(n * step);
  return held >= LEAST_STEP_L ? [...out, held] : out;
}
