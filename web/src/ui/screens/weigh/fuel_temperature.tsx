/** How warm the fuel was at a weighing: asked after roll-off, never on the deck, and never needed. */
import type { JSX } from "preact";
import { type Book, fuelOf, type State, TOLD_U_C } from "@/services/answers";
import { NumberField, type TypedNumber } from "@/ui/parts/forms";
import { twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/weigh";
import { type Read, readTyped } from "@/units/typed";

interface Props {
  readonly book: Book;
  readonly value: TypedNumber;
  readonly onChange: (value: TypedNumber) => void;
}

export const NOT_SAID: TypedNumber = { text: "", unit: "C" };

export function FuelTemperature({ book, value, onChange }: Props): JSX.Element | null {
  if (!book.tanks.some((tank) => tank.body.holds === "fuel")) return null;
  const usual = fuelOf(book.vehicle?.body);
  const read = readWarmth(value);
  return (
    <NumberField
      label={words.state.warm}
      hint={words.state.warmHint(
        withReach(usual.temperature_c, twoSided(usual.temperature_u_c)),
        Math.round(twoSided(TOLD_U_C)),
      )}
      value={value}
      units={["C"]}
      onChange={onChange}
      error={read.kind === "wrong" ? read.message : null}
      ask={read.kind === "ask" ? read.choices : null}
    />
  );
}

/** The range of the table that the density goes by. */
export function readWarmth(value: TypedNumber): Read {
  return readTyped(value, { dimension: "temperature", low: -40, high: 90, name: words.state.warmth });
}

/** The state with what was said of the fuel; a blank says nothing. */
export function withWarmth(state: State, value: TypedNumber): State {
  const read = readWarmth(value);
  if (read.kind !== "ok") return state;
  return { ...state, fuel_temperature_c: read.base, fuel_temperature_u_c: TOLD_U_C };
}
