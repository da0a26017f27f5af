/** Words of the bridge: which one it was, how it is laid out, how far it may be off. */
import { kg } from "./figures";

const FORMS: Readonly<Record<string, string>> = {
  single_deck: "One deck",
  multi_deck: "Several decks",
  pads: "Pads",
};

const CLASSES: Readonly<Record<string, string>> = {
  III: "Class III",
  IIII: "Class IIII",
  percent: "Not verified",
};

/** Twenty kilograms, or the nine of a scale that counts in pounds. */
export function step(value_kg: number): string {
  return Number.isInteger(value_kg) ? kg(value_kg) : `${Number(value_kg.toFixed(2))}\u202fkg`;
}

export const words = {
  which: "Which bridge was it?",
  other: "Another bridge",
  chip: (name: string, interval_kg: number) => `${name}, ${step(interval_kg)}`,
  name: "Name or number of the bridge",
  interval: "Interval of the display",
  otherSteps: (now_kg: number, before_kg: number) =>
    `The figures step by ${step(now_kg)}, not ${step(before_kg)}. Is it this bridge?`,
  more: "More about the bridge",
  assumed: "assumed",
  form: "How is it laid out?",
  forms: (id: string) => FORMS[id] ?? id,
  onePad: "One pad, moved from wheel to wheel?",
  accuracy: "Accuracy class",
  accuracyHint: "On the plate of the scale. Class III unless it says otherwise (common practice, no source).",
  classes: (id: string) => CLASSES[id] ?? id,
  percent: "Error in percent of the reading",
  percentHint: "As its maker states it.",
  needPercent: "Error in percent of the reading: type what its maker states, 0.01 to 20.",
  displayed: "Step of the display, if it is not the interval",
  max: "Max of the scale",
  maxHint: "Blank: 60 t, assumed.",
  site: "Site number",
  unclear: (name: string) => `${name}: type it without separators.`,
  tooHeavy: (name: string, interval_kg: number, reach_kg: number, read_kg: number) =>
    `${CLASSES[name]}: with an interval of ${step(interval_kg)} it reaches ${kg(reach_kg)}, and ${kg(read_kg)} was read.`,
  unread: (beyond: { value_kg: number; reach_kg: number } | null) =>
    beyond
      ? `Cannot be read: ${kg(beyond.value_kg)} stands there, and the class of the scale reaches ${kg(beyond.reach_kg)}.`
      : "Cannot be read: the error of the scale in percent is blank.",
  unreadNext: "The other weighings do without it. Strike it out in the log, and enter it anew.",
  decks: "Several decks at once",
  pads: "Pads, one wheel each",
  pad: "One pad, moved from wheel to wheel",
  side: "Which wheels?",
  sides: { both: "Both", left: "Left", right: "Right" } as const,
  maxTold: (text: string) => `Max ${text}`,
  offBy: (percent: string) => `not verified, ${percent} % of the reading`,
};

interface Told {
  readonly form: string;
  readonly accuracy_class: string | null;
  readonly percent: string | null;
  readonly max: string | null;
}

/** "One deck, class III (assumed), Max 60 t (assumed)": what nobody has said is marked. */
export function bridgeTold({ form, accuracy_class, percent, max }: Told): string {
  const assumed = (text: string, said: string | null) =>
    said === null ? `${text} (${words.assumed})` : text;
  const accuracy =
    accuracy_class === "percent"
      ? words.offBy(percent ?? "?")
      : assumed(`class ${accuracy_class ?? "III"}`, accuracy_class);
  const limit = accuracy_class === "percent" ? [] : [assumed(words.maxTold(max ?? "60\u202ft"), max)];
  return [words.forms(form), accuracy, ...limit].join(", ");
}
