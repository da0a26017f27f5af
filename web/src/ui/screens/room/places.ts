/** Places by name, and what is typed or touched: where on the vehicle, its roof or its trailer something is to go. */
import type { Book } from "@/services/answers";
import type { Where } from "@/services/room";
import { type BodyFacts, shapeOf, type TrailerShape, tailOf } from "@/ui/parts/drawing/frame";
import { words } from "@/ui/text/room";
import { readTyped, type TypedNumber } from "@/units/typed";

export interface Place {
  readonly where: Where;
  readonly x_m: number;
}

export interface Named extends Place {
  readonly id: string;
  readonly label: string;
}

/** The question as it stands in the form; `measured` when the metres were typed. */
export interface Question {
  readonly mass: TypedNumber;
  readonly known_by: string;
  readonly where: Where;
  readonly x: TypedNumber;
  readonly measured: boolean;
}

/** Of an open tray behind the cab, and of a closed body (assumed: only the name of a place rests on it). */
const CAB_M = 0.72;
const CLOSED = 0.6;

/** Where things usually go; the drawing says where the body ends. */
export function placesOf({ vehicle }: Book, trailer: TrailerShape | null): Named[] {
  const shape = shapeOf((vehicle?.body ?? {}) as BodyFacts);
  const { wheelbase_m, body_form, front_overhang_m } = shape;
  const open = body_form === "utility" || body_form === "cab_chassis";
  const tray_m = open ? wheelbase_m - CAB_M : CLOSED * wheelbase_m;
  const named = (id: string, x_m: number, where: Where = "vehicle"): Named => ({
    ...{ id, where, x_m: Math.round(x_m * 100) / 100 },
    label: words.places[id]!,
  });
  return [
    named("tail", tailOf(shape)),
    named("rear", wheelbase_m + shape.rear_spread_m / 2),
    named(open ? "tray" : "hold", tray_m),
    named("front", -front_overhang_m),
    named("roof", wheelbase_m / 2, "roof"),
    ...(trailer ? [named("trailer", trailer.coupling_to_axle_m, "trailer")] : []),
  ];
}

/** The question put at a named or touched place. */
export function putAt(question: Question, { where, x_m }: Place): Question {
  return { ...question, where, x: { text: x_m.toFixed(2), unit: "m" }, measured: false };
}

const FURTHEST_M = 25;

export function readPlace({ where, x }: Question) {
  const name = where === "trailer" ? words.xi : words.x;
  return readTyped(x, { dimension: "length", low: -3, high: FURTHEST_M, name });
}

const LIGHTEST_KG = 0.1;
const HEAVIEST_KG = 5_000;

export function readMass({ mass }: Question) {
  return readTyped(mass, { dimension: "mass", low: LIGHTEST_KG, high: HEAVIEST_KG, name: words.mass });
}

/** A place in words: by its name where it has one. */
export function placeWords(named: readonly Named[], { where, x_m }: Place): string {
  const found = named.find((one) => one.where === where && Math.abs(one.x_m - x_m) < 0.005);
  if (found) return found.label;
  return where === "roof" ? words.onRoof(x_m) : where === "trailer" ? words.onTrailer(x_m) : words.at(x_m);
}
