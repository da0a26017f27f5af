/** A scale and its errors: what is common to all its readings (gain, zero), and what belongs to a set of axles. */
import { checkFinite, checkRange, NotKnown, Unknown } from "./errors";

type Steps = readonly (readonly [intervals: number, share: number])[];

// Maximum permissible errors at initial verification: OIML R 76-1:2006 table 6 (from memory); Directive 2014/31/EU
// annex I table 3 and UK S.I. 1995/1907 schedule 2 (read).
export const STEPS: Readonly<Record<string, Steps>> = {
  III: [
    [500, 0.5],
    [2_000, 1],
    [10_000, 1.5],
  ],
  IIII: [
    [50, 0.5],
    [200, 1],
    [1_000, 1.5],
  ],
};
export const IN_SERVICE = 2; // in service twice as much: 2014/31/EU annex I 4.2
export const ZERO_SHARE = 0.25; // accuracy of zero setting in e: OIML R 76-1 4.5.2 (from memory)
export const OWN_REPEATS = 0.5; // share of the own variance met again on the same bridge (assumed)
/** Min in e: below it no limit of error holds; R 76-1 (from memory). */
export const LEAST_INTERVALS: Readonly<Record<string, number>> = { III: 20, IIII: 10 };
export const INTERVAL_KG = 20; // the common public truck bridge (common practice, no source)
export const MAX_KG = 60_000; // likewise

/** A scale: intervals e and d, class III or IIII with its Max, or `percent` of the reading. */
export interface Bridge {
  readonly key: string;
  readonly interval_kg: number;
  readonly displayed_kg: number;
  readonly accuracy_class: string;
  readonly max_kg: number;
  readonly percent?: number | null;
  readonly own_repeats?: number;
}

// biome-ignore lint/suspicious/noExplicitAny: the contract describes a bridge; here it is read field by field
type Body = Readonly<Record<string, any>>;

/** What makes two bridges the same instrument: site number, else name; case and blanks ignored. */
export function bridgeKey({ bridge }: { readonly bridge: Body }): string | null {
  for (const name of ["key", "site_number", "name"]) {
    const text = String(bridge[name] ?? "")
      .replace(/\s+/g, "")
      .toLowerCase();
    if (text) return text;
  }
  return null;
}

export interface BridgeOf {
  readonly key: string;
  readonly body: Body;
}

/** The scale of a weighing as recorded; blanks take the common public bridge, one in percent needs the percentage. */
export function bridgeOf({ key, body }: BridgeOf): Bridge {
  const interval_kg: number = body.interval_kg || INTERVAL_KG;
  const percent: number | null = body.accuracy_class === "percent" ? (body.percent ?? null) : null;
  if (percent === null && body.accuracy_class === "percent")
    throw new NotKnown("percent", "a scale whose error is stated in percent of the reading");
  return {
    key: bridgeKey({ bridge: body }) ?? key,
    interval_kg,
    displayed_kg: body.displayed_interval_kg || interval_kg,
    accuracy_class: percent !== null ? "III" : body.accuracy_class || "III",
    max_kg: body.max_kg || MAX_KG,
    percent,
  };
}

/** Heaviest load that the table of its class reaches, kg; null for a scale stated in percent, which has none. */
export function reachKg({ bridge }: { readonly bridge: Bridge }): number | null {
  return bridge.percent != null ? null : stepsOf(bridge.accuracy_class).at(-1)![0] * intervalOf(bridge);
}

/** Whether the table of its class reaches a load: the reach itself belongs to it. */
export function canWeigh({ bridge, value_kg }: OwnInput): boolean {
  checkFinite("value_kg", value_kg);
  return value_kg <= (reachKg({ bridge }) ?? Number.POSITIVE_INFINITY);
}

export interface PermissibleErrorInput {
  readonly load_kg: number;
  readonly interval_kg: number;
  readonly accuracy_class: string;
  readonly in_service?: boolean;
}

/** Largest permissible error at a load, kg; the upper end of a step belongs to it, beyond the table is refused. */
export function permissibleError(input: PermissibleErrorInput): number {
  const { load_kg, interval_kg, accuracy_class, in_service = true } = input;
  checkRange("interval_kg", interval_kg, { above: 0, unit: "kg" });
  const steps = stepsOf(accuracy_class);
  checkRange("load_kg", load_kg, { low: 0, high: steps.at(-1)![0] * interval_kg, unit: "kg" });
  const [, share] = steps.find(([end]) => load_kg <= end * interval_kg)!;
  return share * interval_kg * (in_service ? IN_SERVICE : 1);
}

/** Relative standard uncertainty of the gain, common to all readings on one bridge. */
export function gainU({ bridge }: { readonly bridge: Bridge }): number {
  if (bridge.percent != null)
    return checkRange("percent", bridge.percent, { above: 0, high: 100 }) / 100 / Math.sqrt(3);
  checkRange("max_kg", bridge.max_kg, { above: 0, unit: "kg" });
  const ends = stepsOf(bridge.accuracy_class).map(([end]) =>
    Math.min(end * intervalOf(bridge), bridge.max_kg),
  );
  return Math.min(...ends.map((load) => mpe(bridge, load) / load)) / Math.sqrt(3);
}

/** Standard uncertainty of the zero of one session, kg. */
export function zeroU({ bridge }: { readonly bridge: Bridge }): number {
  return bridge.percent != null ? 0 : (ZERO_SHARE * intervalOf(bridge)) / Math.sqrt(3);
}

export interface OwnInput {
  readonly bridge: Bridge;
  readonly value_kg: number;
}

/** What is left of the class error for one axle set, kg^2; never below 0. */
export function ownVariance({ bridge, value_kg }: OwnInput): number {
  if (bridge.percent != null) return 0;
  const classVariance = mpe(bridge, value_kg) ** 2 / 3;
  return Math.max(classVariance - (gainU({ bridge }) * value_kg) ** 2 - zeroU({ bridge }) ** 2, 0);
}

/** Whether a reading lies below the scale's Min, 20 e for class III and 10 e for IIII: warn, do not refuse. */
export function belowMin({ bridge, value_kg }: OwnInput): boolean {
  if (bridge.percent != null) return false;
  stepsOf(bridge.accuracy_class);
  checkFinite("value_kg", value_kg);
  return value_kg < LEAST_INTERVALS[bridge.accuracy_class]! * intervalOf(bridge);
}

function intervalOf({ interval_kg }: Bridge): number {
  return checkRange("interval_kg", interval_kg, { above: 0, unit: "kg" });
}

function mpe(bridge: Bridge, load_kg: number): number {
  const { interval_kg, accuracy_class } = bridge;
  return permissibleError({ load_kg, interval_kg, accuracy_class });
}

function stepsOf(accuracy_class: string): Steps {
  const steps = STEPS[accuracy_class];
  if (!steps) throw new Unknown("accuracy_class", accuracy_class, Object.keys(STEPS));
  return steps;
}
