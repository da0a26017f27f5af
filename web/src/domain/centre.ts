/** The plan's centre of gravity in a state, and its height over every state of the tanks. */
import type { Geometry } from "./axles";
import type { Body, Book } from "./book";
import { type Heights, heightSpan, type Tank } from "./envelope";
import { FORGOTTEN } from "./forgotten";
import { densityOf, type Fuel, fuelOf, heightInTankM, positionUM } from "./parts";
import { baseCorrelationOf, geometryOf, type Missing, mainTank, type Plan, planIn } from "./plan";
import { type Centre, centreOfGravity, type Stability, staticStability } from "./stability";
import type { State } from "./state";
import type { Part } from "./statics";

const TANK_PARTS = ["content", "unusable", "empty"];

/** Where the plan's centre of gravity is; `no_height` names one blank per record that the height waits for. */
export interface PlanCentre {
  readonly centre: Centre | null;
  readonly no_height: readonly Missing[];
  /** The mean of the two tracks, null until both are known. */
  readonly track_m: number | null;
  readonly stability: Stability | null;
  /** The order of the levels in `heights`. */
  readonly tanks: readonly string[];
  /** Over every tank state. */
  readonly heights: Heights | null;
}

export interface PlanCentreOf {
  readonly book: Book;
  readonly state: State;
  /** Count what is on order too. */
  readonly ordered?: boolean;
}

/** Centre of gravity of the vehicle in a state, its stability factor, and its height over every tank state. */
export function planCentre({ book, state, ordered = false }: PlanCentreOf): PlanCentre {
  const plan = planIn({ book, state, ordered });
  const parts = [...plan.lasting, ...plan.passing];
  const centre = centreOfGravity({ parts, base_correlation: baseCorrelationOf({ book }) });
  const whole = planIn({ book, state: { ...state, items_away: [] }, ordered });
  const found = tanksOf(book, state, plan);
  const track_m = meanTrackM({ geometry: geometryOf({ book, state }) });
  const told = {
    ...{ centre, no_height: noHeight(book, parts, whole), track_m },
    tanks: found.map((tank) => tank.id),
  };
  if (centre === null || centre.z_m === null || centre.z_u_m === null)
    return { ...told, stability: null, heights: null };
  const { z_m: height_m, z_u_m: height_u_m } = centre;
  const stability =
    track_m !== null && height_m > 0 ? staticStability({ track_m, height_m, height_u_m }) : null;
  const dry = parts.filter((part) => !part.id.endsWith(":content"));
  return { ...told, stability, heights: heightSpan({ parts: dry, tanks: found }) };
}

/** The mean of front and rear track, m; null until both are known. */
export function meanTrackM({ geometry }: { readonly geometry: Geometry }): number | null {
  const { front_track_m = null, rear_track_m = null } = geometry;
  return front_track_m === null || rear_track_m === null ? null : (front_track_m + rear_track_m) / 2;
}

/**
 * One blank for each record whose part on the vehicle has no height. Forgotten mass goes with items left behind too:
 * they are named by the plan with nothing away (`whole`).
 */
function noHeight(book: Book, parts: readonly Part[], whole: Plan): Missing[] {
  const found = new Map<string, Missing>();
  const lacks = parts.some((part) => part.id === FORGOTTEN && part.z_m == null);
  for (const part of lacks ? [...whole.lasting, ...whole.passing] : parts) {
    if ((part.on ?? "vehicle") !== "vehicle" || part.z_m != null || part.id === FORGOTTEN) continue;
    const blank = blankOf(book, part);
    if (!found.has(blank.record_id)) found.set(blank.record_id, blank);
  }
  return [...found.values()];
}

/** The record behind a part and the field that its height needs. */
function blankOf(book: Book, part: Part): Missing {
  if (part.id === "base_front" || part.id === "base_rear")
    return { record_id: book.vehicle?.id ?? "", kind: "vehicle", field: "cg_height_m" };
  if (part.id === "base_driver") return { record_id: book.seats[0]!.id, kind: "seat", field: "z_m" };
  const [record_id, what = ""] = part.id.split(":") as [string, string?];
  if (what === "occupant") return { record_id, kind: "seat", field: "z_m" };
  if (part.id === "base_fuel" || TANK_PARTS.includes(what)) {
    const tank =
      part.id === "base_fuel" ? mainTank({ book }) : book.tanks.find((one) => one.id === record_id);
    const field = tank?.body.z_bottom_m == null ? "z_bottom_m" : "height_m";
    return { record_id: tank?.id ?? record_id, kind: "tank", field };
  }
  return { record_id, kind: "item", field: "z_m" };
}

/** The vehicle's tanks that the plan counts, from empty to full. */
function tanksOf(book: Book, state: State, { passing }: Plan): Tank[] {
  const fuel = fuelOf(book.vehicle?.body, state);
  const counted = new Set(passing.filter((part) => (part.on ?? "vehicle") === "vehicle").map(({ id }) => id));
  return book.tanks
    .filter(({ id }) => counted.has(`${id}:content`))
    .map(({ id, body }) => tankOf(id, body, fuel));
}

function tankOf(id: string, body: Body, fuel: Fuel): Tank {
  const [density_kg_per_l, density_u_kg_per_l] = densityOf(body, fuel);
  const known = heightInTankM(body, 0) !== null;
  return {
    ...{ id, capacity_l: body.capacity_l, capacity_u_l: body.capacity_u_l ?? 0 },
    ...{ density_kg_per_l, density_u_kg_per_l },
    ...{ x_m: body.x_m, x_u_m: positionUM(body), y_m: body.y_m ?? 0 },
    ...{ bottom_m: known ? body.z_bottom_m : null, height_m: known ? body.height_m : 0 },
  };
}
