/** How a field of a plan record is described: its name, its words, its range. */
import type { Dimension } from "@/units/units";

export interface NumberSpec {
  readonly type: "number";
  readonly name: string;
  readonly label: string;
  readonly dimension: Dimension;
  readonly low: number;
  readonly high: number;
  readonly hint?: string;
  /** The hint where the record is on a trailer. */
  readonly on_trailer?: string;
}

export interface ChoiceSpec {
  readonly type: "choice";
  readonly name: string;
  readonly label: string;
  readonly options: readonly (readonly [value: string, label: string])[];
}

export interface OtherSpec {
  readonly type: "text" | "yes_no" | "day" | "seat" | "person" | "grey";
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  /** What a question of yes or no says for a blank, where that can be answered too. */
  readonly blank?: string;
}

/** A whole number from 1 unless said; `nullable` where the record may hold a blank. */
export interface CountSpec {
  readonly type: "count";
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly low?: number;
  readonly high: number;
  readonly nullable?: true;
}

/** One of the book's trailers, or none of them in the words given. */
export interface TrailerSpec {
  readonly type: "trailer";
  readonly name: string;
  readonly label: string;
  readonly none: string;
}

/** Places that an item may move to. */
export interface SlotsSpec {
  readonly type: "slots";
  readonly name: string;
  readonly label: string;
}

/** Asked only where another field of the form has one of these values. */
interface Asked {
  readonly only_if?: readonly [name: string, values: readonly (string | boolean)[]];
}

export type FieldSpec = (NumberSpec | ChoiceSpec | OtherSpec | CountSpec | TrailerSpec | SlotsSpec) & Asked;

export interface KindSpec {
  readonly title: string;
  readonly add: string;
  readonly first: readonly FieldSpec[];
  readonly more: readonly FieldSpec[];
}

export const text = (name: string, label: string, hint?: string): OtherSpec => ({
  type: "text",
  name,
  label,
  ...(hint ? { hint } : {}),
});
export const mass = (name: string, label: string, high = 10_000, hint?: string): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "mass", low: 0, high },
  ...(hint ? { hint } : {}),
});
export const rating = (name: string, label: string): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "mass", low: 1, high: 60_000 },
});
export const length = (
  name: string,
  label: string,
  low: number,
  high: number,
  hint?: string,
): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "length", low, high },
  ...(hint ? { hint } : {}),
});
export const volume = (
  name: string,
  label: string,
  low: number,
  high: number,
  hint?: string,
): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "volume", low, high },
  ...(hint ? { hint } : {}),
});
export const choice = (name: string, label: string, options: ChoiceSpec["options"]): ChoiceSpec => ({
  type: "choice",
  name,
  label,
  options,
});

export const FROM = {
  axle: "Metres behind the front axle; ahead of it is negative",
  coupling: "Metres behind the coupling; ahead of it is negative",
};
export const place = (label: string): NumberSpec => ({
  ...length("x_m", label, -3, 20, FROM.axle),
  on_trailer: FROM.coupling,
});
export const fraction = (
  name: string,
  label: string,
  low: number,
  high: number,
  hint: string,
): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "fraction", low, high, hint },
});
export const temperature = (
  name: string,
  label: string,
  low: number,
  high: number,
  hint: string,
): NumberSpec => ({ type: "number", name, label, dimension: "temperature", low, high, hint });
export const count = (name: string, label: string, high = 1_000): CountSpec => ({
  ...{ type: "count", name, label, high },
});
export const yesNo = (name: string, label: string): OtherSpec => ({ type: "yes_no", name, label });
