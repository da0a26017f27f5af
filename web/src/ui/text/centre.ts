/** Words of the centre of gravity, of single wheels and of single axles. */
import { figure, kg } from "./figures";

export const words = {
  title: "Centre of gravity",
  along: "Behind the front axle",
  across: (y_m: number) => (y_m < 0 ? "Left of the middle" : "Right of the middle"),
  height: "Above the ground",
  noHeight: (names: readonly string[], count: number) =>
    `Its height is not known: ${names.join(", ")}${count > names.length ? ` and ${count - names.length} more` : ""} ${
      count === 1 ? "has" : "have"
    } no height yet.`,
  overTanks: "Over every state of the tanks",
  between: (least_m: number, greatest_m: number) =>
    `${figure(least_m, 2)} to ${figure(greatest_m, 2)}\u202fm`,
  partFull: (levels: readonly number[]) =>
    levels.some((level) => level > 0 && level < 1) ? "lowest with a tank part full" : "",
  stability: "Static stability factor, track over twice the height",
  hint: "To compare with, for a rigid vehicle on level ground. No weighing on level ground says anything of the height.",
  single: "Single wheels and axles",
  other: (other_kg: number) => `by the other model ${kg(other_kg)}`,
  frame: {
    flexible: "Wheels by a flexible frame: each axle carries on its two wheels what stands over it.",
    rigid: "Wheels by a rigid frame: a lean is shared between the axles by their roll stiffness.",
  } as Readonly<Record<string, string>>,
  second: {
    pair: "Rear axles as a pair that shares its load.",
    springs: "Each rear axle on springs of its own; only the ratios of the stiffnesses count.",
  } as Readonly<Record<string, string>>,
};
