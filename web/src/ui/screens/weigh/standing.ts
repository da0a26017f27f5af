/** What can stand on a scale, by its form: whole axles, each group on a deck of its own, or single wheels. Pure. */

export type Wheel = "front_left" | "front_right" | "rear_left" | "rear_right";
export type Axle = "front" | "rear" | "rear_1" | "rear_2" | "trailer" | Wheel;
export type Side = "both" | "left" | "right";
export type ScaleForm = "single_deck" | "multi_deck" | "pads";

/** How the visit's scale is laid out; one pad may be moved from wheel to wheel. */
export interface Layout {
  readonly form: ScaleForm;
  readonly one_pad: boolean;
}

/** One stop: what stands on the deck, and whether the trailer is off for it. */
export interface Stop {
  readonly on_deck: readonly Axle[];
  readonly uncoupled: boolean;
}

export const stop = (on_deck: readonly Axle[], uncoupled = false): Stop => ({ on_deck, uncoupled });

/** Drive on forward, straight: front, whole, rear (common practice, no source). */
const SOLO: readonly Stop[] = [stop(["front"]), stop(["front", "rear"]), stop(["rear"])];

/**
 * Towing: front axle; vehicle with the trailer coupled but off the deck; everything; vehicle alone, uncoupled. The
 * first three give every axle, the fourth the mass on the coupling (common practice, no source).
 */
const TOWING: readonly Stop[] = [
  stop(["front"]),
  stop(["front", "rear"]),
  stop(["front", "rear", "trailer"]),
  stop(["front", "rear"], true),
];

/** Each axle group on its own deck, all read at once (common practice, no source). */
const DECKS: readonly Stop[] = [stop(["front"]), stop(["rear"])];

/** Left before right, front before rear: any order will do. */
const WHEELS: readonly Stop[] = [
  stop(["front_left"]),
  stop(["front_right"]),
  stop(["rear_left"]),
  stop(["rear_right"]),
];

/** The usual order of stops. */
export function stopsOf(towing: boolean, form: ScaleForm = "single_deck"): readonly Stop[] {
  if (form === "single_deck") return towing ? TOWING : SOLO;
  const own = form === "pads" ? WHEELS : DECKS;
  return towing ? [...own, stop(["trailer"])] : own;
}

/** The side that single wheels on the deck are of; both where whole axles stand on it, or wheels of either side. */
export function sideOf(on_deck: readonly Axle[]): Side {
  const all = (side: Side) => on_deck.length > 0 && on_deck.every((one) => one.endsWith(`_${side}`));
  return all("left") ? "left" : all("right") ? "right" : "both";
}

/** The same axles with both wheels, or one wheel of each; an axle that has no wheels of its own stays whole. */
export function onSide(on_deck: readonly Axle[], side: Side): readonly Axle[] {
  return [...new Set(on_deck.map((one) => wheelOf(axleOf(one), side)))].sort();
}

/** What one touch of an axle puts on the deck. */
export function wheelOf(axle: Axle, side: Side): Axle {
  return side !== "both" && (axle === "front" || axle === "rear") ? `${axle}_${side}` : axle;
}

/** The axle that a wheel belongs to. */
export function axleOf(one: Axle): Axle {
  return (/^(front|rear)_(left|right)$/.exec(one)?.[1] ?? one) as Axle;
}

/** Which of several decks or pads a reading was taken on: they err each by itself, and one pad errs alike everywhere. */
export function deckName({ form, one_pad }: Layout, on_deck: readonly Axle[]): string | null {
  if (form === "single_deck") return null;
  return form === "pads" && one_pad ? "pad" : [...on_deck].sort().join("+");
}
