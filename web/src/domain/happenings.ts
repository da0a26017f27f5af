/** What happens to tanks along a way: litres used, put in and let out, and the rest of the load changed. */
import { checkFinite, checkRange, DomainError, Duplicate, Unknown } from "./errors";
import { finite } from "./linalg";
import type { Loads } from "./statics";

/** Less than this is no litre too many. */
export const NOTHING_L = 1e-9;

/** A tank whose content changes. Tanks of one `holds` are drawn in their order, each until it is empty. */
export interface Vessel {
  readonly id: string;
  readonly holds: string;
  readonly capacity_l: number;
  readonly litres_l: number;
  readonly x_m: number;
  readonly litres_u_l?: number;
  readonly density_kg_per_l?: number;
  readonly density_u_kg_per_l?: number;
  readonly x_u_m?: number;
  readonly on?: string;
  readonly drain_order?: number;
  readonly grey_id?: string | null;
  /** Of what is drawn from it, this share goes to the tank `grey_id`. */
  readonly grey_fraction?: number;
  /** u of its shut-off, where it is not that of what fills it. */
  readonly full_u_l?: number | null;
}

/** A distance on which litres are used, by what is held; `left_u_l` is the u of what is left at its end. */
export interface Way {
  readonly kind: "way";
  readonly distance_km: number;
  readonly used_l: Readonly<Record<string, number>>;
  readonly left_u_l?: Readonly<Record<string, number>>;
}

/**
 * Litres taken on, into the tanks drawn last first; null fills all of them up, `litres_u_l` is then the u of the
 * shut-off of each tank that has none of its own.
 */
export interface Take {
  readonly kind: "take";
  readonly holds: string;
  readonly litres_l?: number | null;
  readonly litres_u_l?: number;
}

/** A tank is emptied out: grey water let go. */
export interface Empty {
  readonly kind: "empty";
  readonly tank_id: string;
}

/** From here on everything but the tanks weighs this: people or loads came or went. */
export interface Rest {
  readonly kind: "rest";
  readonly loads: Loads;
}

export type Happening = Way | Take | Empty | Rest;

export interface Vessels {
  readonly vessels: readonly Vessel[];
}

/** Refuse one id twice, a level beyond the capacity, a grey tank that is not there, figures out of range. */
export function checkVessels({ vessels }: Vessels): void {
  const ids = vessels.map((one) => one.id);
  for (const [n, one] of vessels.entries()) {
    if (ids.indexOf(one.id) !== n || ids.lastIndexOf(one.id) !== n) throw new Duplicate("id", one.id);
    checkRange("capacity_l", one.capacity_l, { above: 0, unit: "L" });
    checkRange("litres_l", one.litres_l, { low: 0, high: one.capacity_l + NOTHING_L, unit: "L" });
    checkRange("density_kg_per_l", one.density_kg_per_l ?? 1, { above: 0, unit: "kg/L" });
    checkFinite("x_m", one.x_m);
    checkFinite("drain_order", one.drain_order ?? 99);
    for (const name of ["litres_u_l", "density_u_kg_per_l", "x_u_m"] as const)
      checkRange(name, one[name] ?? 0, { low: 0 });
    checkRange("full_u_l", one.full_u_l ?? 0, { low: 0, unit: "L" });
    checkRange("grey_fraction", one.grey_fraction ?? 0, { low: 0, high: 1 });
    const grey_id = one.grey_id ?? null;
    if (grey_id !== null && !ids.includes(grey_id)) throw new Unknown("grey_id", grey_id, ids);
  }
}

export interface CheckHappenings extends Vessels {
  readonly events: readonly Happening[];
  readonly rows: readonly string[];
}

/** Refuse litres and distances below 0, a tank or content that is not there, loads of other rows. */
export function checkHappenings({ vessels, events, rows }: CheckHappenings): void {
  const ids = vessels.map((one) => one.id);
  const held = [...new Set(vessels.map((one) => one.holds))].sort();
  for (const event of events) {
    if (event.kind === "way") {
      checkRange("distance_km", event.distance_km, { low: 0, unit: "km" });
      for (const name of ["used_l", "left_u_l"] as const)
        for (const [holds, litres] of Object.entries(event[name] ?? {})) {
          checkRange(name, litres, { low: 0, unit: "L" });
          if (!held.includes(holds)) throw new Unknown("holds", holds, held);
        }
    } else if (event.kind === "rest") {
      if (event.loads.rows.join() !== rows.join())
        throw new DomainError("rows", event.loads.rows, "the rows of the way's beginning");
      finite("mean_kg", event.loads.mean_kg);
      finite("cov_kg2", event.loads.cov_kg2);
    } else if (event.kind === "take") {
      if (!held.includes(event.holds)) throw new Unknown("holds", event.holds, held);
      checkRange("litres_l", event.litres_l ?? 0, { low: 0, unit: "L" });
      checkRange("litres_u_l", event.litres_u_l ?? 0, { low: 0, unit: "L" });
    } else if (!ids.includes(event.tank_id)) throw new Unknown("tank_id", event.tank_id, ids);
  }
}
