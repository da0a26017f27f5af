/** What happens to tanks and to the rates at which they empty: the events that the filter knows. */
import { checkRange, DomainError, Duplicate, NotKnown, OutOfRange } from "./errors";

/** More than this share of the capacity in one fill is refused (assumed). */
export const OVERFILL = 1.1;
/** How far a new tyre or roof load may move the rates, relative (assumed). */
export const CHANGE_U = 0.15;

/** The level is known from outside; what was known of it before is dropped. */
export interface Start {
  readonly kind: "start";
  readonly tank_id: string;
  readonly litres_l: number;
  readonly litres_u_l: number;
}

/** An amount (indicated km, or person-days) in one class; shares of the draw per tank in the model's order. */
export interface Use {
  readonly kind: "use";
  readonly amount: number;
  readonly class_id: string;
  readonly shares?: readonly number[];
}

/** Litres put in; without a u the pump's share of them. */
export interface Fill {
  readonly kind: "fill";
  readonly tank_id: string;
  readonly litres_l: number;
  readonly litres_u_l?: number | null;
}

/** These tanks are filled to the shut-off: together they hold the sum of their capacities. */
export interface Full {
  readonly kind: "full";
  readonly tank_ids: readonly string[];
  /** Without a u that of the shut-off, for each of them. */
  readonly litres_u_l?: number | null;
}

/** A fill was not entered: the level is anything, the rates stay. */
export interface Missed {
  readonly kind: "missed";
  readonly tank_id: string;
}

/** A level read as a fraction of the capacity; without a u the gauge's share of it. */
export interface Gauge {
  readonly kind: "gauge";
  readonly tank_id: string;
  readonly fraction: number;
  readonly fraction_u?: number | null;
}

/** A level read in litres. */
export interface Level {
  readonly kind: "level";
  readonly tank_id: string;
  readonly litres_l: number;
  readonly litres_u_l: number;
}

/** Litres from one tank into another, or out of the vehicle. */
export interface Transfer {
  readonly kind: "transfer";
  readonly tank_id: string;
  readonly into_id: string | null;
  readonly litres_l: number;
  readonly litres_u_l?: number;
}

/** All that is in one tank, into another or out of the vehicle. */
export interface Pour {
  readonly kind: "pour";
  readonly tank_id: string;
  readonly into_id: string | null;
}

/** Something that may have moved all rates by `rate_u`, relative: tyres, a roof load. */
export interface Change {
  readonly kind: "change";
  readonly rate_u?: number;
}

/** The amounts are counted differently from now on: rates times `ratio`, k_new / k_old of the odometer. */
export interface Rescale {
  readonly kind: "rescale";
  readonly ratio: number;
}

export type Observation = Full | Gauge | Level;
export type DomainEvent = Observation | Start | Use | Fill | Missed | Transfer | Pour | Change | Rescale;

/** Whether an event is something read, which can agree or not with what was expected. */
export function isObservation(event: DomainEvent): event is Observation {
  return event.kind === "full" || event.kind === "gauge" || event.kind === "level";
}

export interface CheckEvent {
  readonly event: DomainEvent;
  readonly tanks: number;
  readonly capacity_l?: number | null;
}

/** Refuse what cannot be computed with: see the Python twin for every range. */
export function checkEvent({ event, tanks, capacity_l = null }: CheckEvent): void {
  switch (event.kind) {
    case "use":
      checkRange("amount", event.amount, { low: 0 });
      checkShares({ shares: event.shares ?? [], tanks });
      return;
    case "fill": {
      const high =
        capacity_l === null ? null : OVERFILL * checkRange("capacity_l", capacity_l, { above: 0, unit: "L" });
      checkRange("litres_l", event.litres_l, { low: 0, high, unit: "L" });
      checkRange("litres_u_l", event.litres_u_l ?? 0, { low: 0, unit: "L" });
      return;
    }
    case "start":
    case "level":
    case "transfer":
      checkRange("litres_l", event.litres_l, { low: 0, unit: "L" });
      checkRange("litres_u_l", event.litres_u_l ?? 0, { low: 0, unit: "L" });
      return;
    case "gauge":
      checkRange("fraction", event.fraction, { low: 0, high: 1 });
      checkRange("fraction_u", event.fraction_u ?? 0, { low: 0 });
      return;
    case "full":
      if (event.tank_ids.length === 0) throw new NotKnown("tank_ids", "a full tank");
      if (new Set(event.tank_ids).size !== event.tank_ids.length)
        throw new Duplicate("tank_ids", event.tank_ids);
      checkRange("litres_u_l", event.litres_u_l ?? 0, { low: 0, unit: "L" });
      return;
    case "change":
      checkRange("rate_u", event.rate_u ?? CHANGE_U, { low: 0 });
      return;
    case "rescale":
      checkRange("ratio", event.ratio, { above: 0 });
  }
}

export interface CheckShares {
  readonly shares: readonly number[];
  readonly tanks: number;
}

/** Refuse shares of a draw that are negative, do not fit the tanks, or do not add up to 1 within 1e-9. */
export function checkShares({ shares, tanks }: CheckShares): void {
  if (shares.length === 0 && tanks === 1) return;
  if (shares.length !== tanks) throw new DomainError("shares", shares, `${tanks} numbers, one for each tank`);
  for (const share of shares) checkRange("shares", share, { low: 0, high: 1 });
  const total = shares.reduce((sum, share) => sum + share, 0);
  if (Math.abs(total - 1) > 1e-9) throw new OutOfRange("shares", total, { low: 1, high: 1 });
}
