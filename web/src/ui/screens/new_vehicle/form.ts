/** What is typed for a new vehicle, read into its records. */
import { typicalVehicle } from "@/services/catalogue";
import type { NewRecord } from "@/services/records";
import { kg } from "@/ui/text/figures";
import { newVehicle as words } from "@/ui/text/home";
import { type Choice, readTyped, type TypedNumber } from "@/units/typed";

export const RATINGS = ["gross_kg", "front_axle_kg", "rear_axle_kg"] as const;
export type Rating = (typeof RATINGS)[number];

export interface VehicleForm {
  /** Made once, so that the same form saved twice makes one vehicle. */
  readonly id: string;
  readonly name: string;
  readonly ratings: Readonly<Record<Rating, TypedNumber>>;
  /** The generic vehicle whose typical figures it begins with; none where blank. */
  readonly base?: string;
}

export interface VehicleErrors {
  readonly name?: string;
  readonly ratings: Partial<Record<Rating, string>>;
  readonly asks: Partial<Record<Rating, readonly Choice[]>>;
}

export interface ReadVehicle {
  readonly errors: VehicleErrors;
  /** Null while something is wrong. */
  readonly vehicle: NewRecord["body"] | null;
  readonly plate: NewRecord | null;
  /** Possible, but odd enough to ask about. */
  readonly doubt: string | null;
}

const blank: TypedNumber = { text: "", unit: "kg" };

export function emptyForm(id: string): VehicleForm {
  return { id, name: "", ratings: { gross_kg: blank, front_axle_kg: blank, rear_axle_kg: blank } };
}

export function readVehicle(form: VehicleForm): ReadVehicle {
  const read = RATINGS.map((rating) => [rating, readRating(form, rating)] as const);
  const errors: VehicleErrors = {
    ...(form.name.trim() === "" ? { name: words.needName } : {}),
    ratings: Object.fromEntries(
      read.flatMap(([name, one]) => (one.kind === "wrong" ? [[name, one.message]] : [])),
    ),
    asks: Object.fromEntries(
      read.flatMap(([name, one]) => (one.kind === "ask" ? [[name, one.choices]] : [])),
    ),
  };
  const wrong = errors.name || read.some(([, one]) => one.kind === "wrong" || one.kind === "ask");
  const known = read.flatMap(([name, one]) => (one.kind === "ok" ? [[name, one] as const] : []));
  const figures = Object.fromEntries(known.map(([name, one]) => [name, one.base]));
  const as_typed = Object.fromEntries(known.map(([name, one]) => [name, one.as_typed]));
  const plate = { kind: "plate", body: { of: "vehicle", standing: "in_force", ...figures, as_typed } };
  return {
    errors,
    vehicle: wrong
      ? null
      : { name: form.name.trim(), ...(form.base ? typicalVehicle({ base: form.base }) : {}) },
    plate: known.length > 0 ? plate : null,
    doubt: doubtOf(figures),
  };
}

function readRating(form: VehicleForm, rating: Rating) {
  return readTyped(form.ratings[rating], { dimension: "mass", low: 1, high: 60_000, name: words[rating] });
}

/** Axles are rated for at least the gross mass together; a plate that says otherwise was probably misread. */
function doubtOf({ gross_kg, front_axle_kg, rear_axle_kg }: Partial<Record<Rating, number>>): string | null {
  if (gross_kg === undefined || front_axle_kg === undefined || rear_axle_kg === undefined) return null;
  const axles = front_axle_kg + rear_axle_kg;
  return axles < gross_kg ? words.odd(kg(gross_kg), kg(axles)) : null;
}
