/** The bridge of a visit: what is known of it, as typed or as it was last time, and what is written down. Pure. */
import type { Row } from "@/services/answers";
import { bridgeCalled, type SeenBridge } from "@/services/bridges";
import { words } from "@/ui/text/bridge";
import { readTyped, type TypedNumber } from "@/units/typed";
import { guessedInterval, type Shown, stepsBy } from "./interval";
import type { ScaleForm } from "./standing";

export type AccuracyClass = "III" | "IIII" | "percent";

export interface BridgeFacts {
  readonly name: string;
  readonly site_number: string;
  /** Which of the bridges seen it is; null for a new one. */
  readonly known: string | null;
  readonly key: string | null;
  readonly interval_kg: number | null;
  /** Whether a person chose the interval: then the figures do not overrule it. */
  readonly by_hand: boolean;
  /** Null where nobody has said: class III is assumed. */
  readonly accuracy_class: AccuracyClass | null;
  readonly percent: TypedNumber;
  readonly displayed: TypedNumber;
  readonly max: TypedNumber;
}

export const noBridge: BridgeFacts = {
  name: "",
  site_number: "",
  known: null,
  key: null,
  interval_kg: null,
  by_hand: false,
  accuracy_class: null,
  percent: { text: "", unit: "1" },
  displayed: { text: "", unit: "kg" },
  max: { text: "", unit: "t" },
};

/** A bridge as a draft kept it, from before a field was added too; null where nobody has touched it. */
export function openFacts(kept: Partial<BridgeFacts> | null | undefined): BridgeFacts | null {
  if (!kept) return null;
  const facts = { ...noBridge, ...kept };
  const old = kept.by_hand === undefined;
  if (old && !facts.name && facts.interval_kg === null) return null;
  return old ? { ...facts, by_hand: facts.interval_kg !== null } : facts;
}

/** Everything that was written down of a bridge last time. */
export function factsOf({ key, body }: SeenBridge): BridgeFacts {
  return {
    ...noBridge,
    name: body.name ?? "",
    site_number: body.site_number ?? "",
    known: key,
    key: body.key ?? null,
    interval_kg: body.interval_kg ?? null,
    accuracy_class: body.accuracy_class ?? null,
    percent: typed(body.percent, "1"),
    displayed: typed(body.displayed_interval_kg, "kg"),
    max: wholeTonnes(body.max_kg) ? typed(body.max_kg / 1000, "t") : typed(body.max_kg, "kg"),
  };
}

function typed(value: number | null | undefined, unit: string): TypedNumber {
  return { text: value == null ? "" : String(value), unit };
}

function wholeTonnes(value_kg: number | null | undefined): boolean {
  return value_kg != null && value_kg % 1000 === 0;
}

/** The bridge of this vehicle's latest weighing on a scale of this form, where it had a name. */
export function lastOf(seen: readonly SeenBridge[], book: string, form: ScaleForm): SeenBridge | null {
  return seen.find((one) => one.book === book && formOf(one) === form) ?? null;
}

export function formOf({ body }: SeenBridge): ScaleForm {
  return body.form ?? "single_deck";
}

/** A name typed: one that is known brings its bridge along; a change away from it leaves that bridge behind. */
export function named(facts: BridgeFacts, name: string, seen: readonly SeenBridge[]): BridgeFacts {
  const found = bridgeCalled(seen, name);
  if (found) return found.key === facts.known ? { ...facts, name } : { ...factsOf(found), name };
  return facts.known === null ? { ...facts, name } : { ...noBridge, name };
}

export interface Errors {
  readonly accuracy_class?: string;
  readonly percent?: string;
  readonly displayed?: string;
  readonly max?: string;
}

export interface ReadFacts {
  /** As the record has it; where something cannot be read, the form and the interval alone. */
  readonly body: Row["body"];
  readonly interval_kg: number;
  readonly errors: Errors;
  /** The figures do not step as this bridge did. */
  readonly steps_by_kg: number | null;
}

/** What is written down of the bridge; a known one's interval gives way to figures that do not step by it. */
export function readFacts(facts: BridgeFacts, form: ScaleForm, readings: readonly Shown[]): ReadFacts {
  const [displayed, percent, max] = [readDisplayed(facts), readPercent(facts), readMax(facts)];
  const guess_kg = guessedInterval(readings);
  const step_kg = displayed.value ?? facts.interval_kg;
  const other = step_kg !== null && !stepsBy(readings, step_kg);
  const kept_kg = other && !facts.by_hand ? null : facts.interval_kg;
  const interval_kg = kept_kg ?? guess_kg;
  const settled_by = kept_kg === null ? "guessed_from_readings" : "confirmed";
  const errors: Errors = {
    ...(displayed.error ? { displayed: displayed.error } : {}),
    ...(percent.error ? { percent: percent.error } : {}),
    ...(max.error ? { max: max.error } : {}),
    ...tooHeavy(facts.accuracy_class ?? "III", interval_kg, readings),
  };
  const plain = { form, interval_kg, settled_by };
  const { accuracy_class, name, site_number, key } = facts;
  const body = {
    ...plain,
    ...(accuracy_class ? { accuracy_class } : {}),
    ...(percent.value === null ? {} : { percent: percent.value }),
    // a display that steps otherwise than it did is not written down anew
    ...(displayed.value === null || (other && !facts.by_hand)
      ? {}
      : { displayed_interval_kg: displayed.value }),
    ...(max.value === null ? {} : { max_kg: max.value }),
    ...(name.trim() ? { name: name.trim() } : {}),
    ...(site_number.trim() ? { site_number: site_number.trim() } : {}),
    ...(key ? { key } : {}),
  };
  const wrong = Object.keys(errors).length > 0;
  return {
    body: wrong ? { ...plain, interval_kg: guess_kg } : body,
    interval_kg,
    errors,
    steps_by_kg: other ? guess_kg : null,
  };
}

interface Figure {
  readonly value: number | null;
  readonly error: string | null;
}

function readDisplayed({ displayed }: BridgeFacts): Figure {
  return read(displayed, { dimension: "mass", low: 0.1, high: 200, name: words.displayed });
}

function readMax({ max }: BridgeFacts): Figure {
  return read(max, { dimension: "mass", low: 100, high: 200_000, name: words.max });
}

/** Only asked of a scale that is not verified, and needed there. */
function readPercent({ accuracy_class, percent }: BridgeFacts): Figure {
  if (accuracy_class !== "percent") return { value: null, error: null };
  const bare = { ...percent, text: percent.text.replace(/\s*%\s*$/, "") };
  const found = read(bare, { dimension: "fraction", low: 0.01, high: 20, name: words.percent });
  return found.value === null && found.error === null ? { value: null, error: words.needPercent } : found;
}

function read(value: TypedNumber, wanted: Parameters<typeof readTyped>[1]): Figure {
  const found = readTyped(value, wanted);
  if (found.kind === "blank") return { value: null, error: null };
  if (found.kind === "ok") return { value: found.base, error: null };
  return { value: null, error: found.kind === "wrong" ? found.message : words.unclear(wanted.name) };
}

// intervals that a class's table of errors reaches: OIML R 76-1:2006 table 6 (from memory)
const REACH: Readonly<Record<string, number>> = { III: 10_000, IIII: 1_000 };

function tooHeavy(accuracy_class: AccuracyClass, interval_kg: number, readings: readonly Shown[]): Errors {
  const reach_kg = (REACH[accuracy_class] ?? Number.POSITIVE_INFINITY) * interval_kg;
  const counted = readings.filter((one) => !one.struck_out);
  const greatest_kg = Math.max(0, ...counted.map((one) => one.value_kg));
  if (greatest_kg <= reach_kg) return {};
  return { accuracy_class: words.tooHeavy(accuracy_class, interval_kg, reach_kg, greatest_kg) };
}
