/** Words of two plans side by side. */
import { dayOf, kg, metres } from "./figures";

const HOW: Readonly<Record<string, string>> = {
  added: "new",
  removed: "taken off",
  fitted: "was on order, now fitted",
  ordered: "on order",
  coupled: "with the trailer",
  uncoupled: "with the trailer",
  moved: "moved",
  known: "the same, known otherwise",
  axles: "axles or coupling entered anew",
};

interface Line {
  readonly how: readonly string[];
  readonly was_kg: number | null;
  readonly now_kg: number | null;
  readonly was_x_m: number | null;
  readonly now_x_m: number | null;
}

export const words = {
  title: "Two plans",
  sides: ["First plan", "Second plan"] as const,
  asOf: "As it stood on",
  now: "now",
  day: (day: string) => dayOf(`${day}T00:00:00Z`, "UTC"),
  named: (title: string, day: string | null) => `${title}, ${day === null ? "now" : words.day(day)}`,
  withThings: (name: string, count: number) =>
    count === 0 ? name : `${name} and ${count === 1 ? "one thing" : `${count} things`} on it`,
  stage: "Count what is on order?",
  fitted: "Fitted alone",
  ordered: "And on order",
  trailer: "Is a trailer on?",
  noTrailer: "None",
  state: "Both in which state?",
  alone: "By the plan alone, without what weighings taught.",
  drawing: (name: string) => `${name}: items as arrows, axle loads under the axles`,
  none: "There was no plan then: it had no wheelbase or empty masses yet.",
  noTrailerThen: "The trailer was not there then, or its lever and empty masses were not.",
  cg: "Centre of gravity",
  behind: (x_m: number) => `${metres(x_m)} behind the front axle`,
  notCounted: (count: number) =>
    count === 1 ? "One blank is not counted." : `${count} blanks are not counted.`,
  levels: "What the tanks hold",
  tank: "Tank",
  notThere: "not there",
  noLevel: "not known, counted as half full",
  between: "What lies between",
  hint: "Whole kilograms: first plan and lines add up to the second.",
  same: "Nothing differs: the two plans are the same.",
  what: "What",
  rows: {
    front: "Front",
    rear: "Rear",
    gross: "Gross",
    coupling: "Coupling",
    trailer_axles: "Trailer axles",
  } as Readonly<Record<string, string>>,
  vehicle: "Vehicle",
  nameless: "Not named here",
  /** "30 kg to 36 kg, moved from 3.00 m to 3.60 m" */
  line: ({ how, was_kg, now_kg, was_x_m, now_x_m }: Line) =>
    how
      .map((one) => {
        const from = one === "mass" ? [was_kg, now_kg] : one === "moved" ? [was_x_m, now_x_m] : [null, null];
        const [was, now] = from;
        if (was == null || now == null || was === now)
          return one === "mass" ? "another mass" : (HOW[one] ?? one);
        return one === "mass" ? `${kg(was)} to ${kg(now)}` : `moved, ${metres(was)} to ${metres(now)}`;
      })
      .join(", "),
};
