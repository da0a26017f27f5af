/**
 * Which share of a kilogram at (x, y) each row carries: the rigid vehicle on its axles, and its trailer. Every row
 * of the towing vehicle is linear in force and moment; nothing is clipped.
 */
import { checkFinite, checkRange, NotKnown, Unknown } from "./errors";

export const ROWS: readonly string[] = ["front", "rear", "gross"];
/** The two axles of a rear group. */
export const SINGLES: readonly string[] = ["rear_1", "rear_2"];
export const VEHICLE_ROWS: readonly string[] = [...ROWS, ...SINGLES];
export const TRAILER_ROWS: readonly string[] = ["coupling", "trailer_axles", "trailer", "combination"];
/** Of a pair of rear axles that shares its load (assumed). */
export const REARMOST_SHARE = 0.5;
/** Of each axle's springs beside the others (assumed). */
export const STIFFNESS = 1;
/** Of a rigid frame (assumed). */
export const FRONT_ROLL_SHARE = 0.5;
export const WHEELS: readonly string[] = ["front_left", "front_right", "rear_left", "rear_right"];

/** A coupled trailer: x of its parts counts rearwards from the coupling. */
export interface Trailer {
  readonly id: string;
  readonly coupling_to_axle_m: number;
  readonly hitch_moment_kgm?: number;
}

/** Where the supports are, and the models of the second rear axle and of the single wheels. */
export interface Geometry {
  readonly wheelbase_m: number;
  readonly spread_m?: number | null;
  readonly second_axle?: string;
  readonly rearmost_share?: number;
  readonly stiffness?: readonly [number, number, number];
  readonly front_track_m?: number | null;
  readonly rear_track_m?: number | null;
  readonly frame?: string;
  readonly front_roll_share?: number;
  readonly coupling_x_m?: number | null;
  readonly trailer?: Trailer | null;
}

/** Load on a row per kg, and its change per metre rearwards and per metre to the right. */
export interface Coefficient {
  readonly share: number;
  readonly per_m: number;
  readonly per_m_right: number;
}

/** Refuse a geometry that cannot be: lengths not above zero, shares outside [0, 1], unknown models. */
export function checkGeometry(geometry: Geometry): void {
  const { trailer, coupling_x_m } = geometry;
  checkRange("wheelbase_m", geometry.wheelbase_m, { above: 0, unit: "m" });
  for (const name of ["spread_m", "front_track_m", "rear_track_m"] as const)
    if (geometry[name] != null) checkRange(name, geometry[name], { above: 0, unit: "m" });
  for (const name of ["rearmost_share", "front_roll_share"] as const)
    if (geometry[name] != null) checkRange(name, geometry[name], { low: 0, high: 1 });
  for (const stiffness of geometry.stiffness ?? []) checkRange("stiffness", stiffness, { above: 0 });
  checkWord("second_axle", geometry.second_axle ?? "pair", ["pair", "springs"]);
  checkWord("frame", geometry.frame ?? "flexible", ["flexible", "rigid"]);
  if (trailer == null) return;
  checkRange("coupling_to_axle_m", trailer.coupling_to_axle_m, { above: 0, unit: "m" });
  checkRange("hitch_moment_kgm", trailer.hitch_moment_kgm ?? 0, { unit: "kg m" });
  if (coupling_x_m == null) throw new NotKnown("coupling_x_m", "a coupled trailer");
  checkRange("coupling_x_m", coupling_x_m, { unit: "m" });
}

/** Effective position of the rear axle or load-sharing pair, m: L_e = L + share * spread. */
export function rearXM(geometry: Geometry): number {
  const { wheelbase_m, spread_m, rearmost_share = REARMOST_SHARE } = geometry;
  return spread_m == null || onSprings(geometry) ? wheelbase_m : wheelbase_m + rearmost_share * spread_m;
}

/** The rows that a geometry has: axles and gross, the single rear axles, the trailer's, the wheels. */
export function rowsOf(geometry: Geometry): string[] {
  return [
    ...ROWS,
    ...(geometry.spread_m != null ? SINGLES : []),
    ...(geometry.trailer != null ? TRAILER_ROWS : []),
    ...(geometry.front_track_m != null && geometry.rear_track_m != null ? WHEELS : []),
  ];
}

/** (c0, c1) of a row of the towing vehicle: load = c0 force + c1 moment about the front axle. */
export function line({
  row,
  geometry,
}: {
  readonly row: string;
  readonly geometry: Geometry;
}): [number, number] {
  if (row === "gross") return [1, 0];
  const { spread_m, rearmost_share = REARMOST_SHARE } = geometry;
  if (spread_m != null && onSprings(geometry)) {
    const [front, first, second] = springs(geometry, spread_m) as [Line, Line, Line];
    const rear: Line = [first[0] + second[0], first[1] + second[1]];
    return pick(row, { front, rear, rear_1: first, rear_2: second });
  }
  const perM = 1 / rearXM(geometry);
  const two: Record<string, Line> = { front: [1, -perM], rear: [0, perM] };
  if (spread_m == null) return pick(row, two);
  return pick(row, { ...two, rear_1: [0, (1 - rearmost_share) * perM], rear_2: [0, rearmost_share * perM] });
}

export interface Place {
  readonly row: string;
  readonly geometry: Geometry;
  readonly x_m: number;
  readonly y_m?: number;
  readonly on?: string;
  readonly axle?: string | null;
  readonly roof?: boolean;
}

/** Load on a row per kg at (x, y), and its slopes; `axle` says that the mass stands on that axle alone. */
export function coefficient(place: Place): Coefficient {
  const { row, geometry, x_m, on = "vehicle", axle = null } = place;
  const { trailer } = geometry;
  if (on !== "vehicle" && trailer?.id !== on)
    throw new Unknown("on", on, ["vehicle", ...(trailer ? [trailer.id] : [])]);
  checkFinite("x_m", x_m);
  checkFinite("y_m", place.y_m ?? 0);
  if (row === "roof") return level(place.roof && on === "vehicle" ? 1 : 0);
  if (TRAILER_ROWS.includes(row)) return onTrailer(row, geometry, x_m, on);
  if (WHEELS.includes(row)) return onWheel(place);
  if (axle !== null) return level(standingOn(row, axle, geometry));
  const [c0, c1] = line({ row, geometry });
  if (on === "vehicle") return { share: c0 + c1 * x_m, per_m: c1, per_m_right: 0 };
  const perKg = c0 + c1 * couplingX(geometry);
  const coupled = onTrailer("coupling", geometry, x_m, on);
  return { share: coupled.share * perKg, per_m: coupled.per_m * perKg, per_m_right: 0 };
}

/** What a levelling hitch adds to a row, kg: its bars carry a moment between vehicle and trailer. */
export function hitchOffsetKg({
  row,
  geometry,
}: {
  readonly row: string;
  readonly geometry: Geometry;
}): number {
  const { trailer } = geometry;
  const moment = trailer?.hitch_moment_kgm ?? 0;
  if (trailer == null || moment === 0 || ["roof", "trailer", "combination"].includes(row)) return 0;
  const force = moment / trailer.coupling_to_axle_m;
  if (row === "trailer_axles" || row === "coupling") return row === "coupling" ? -force : force;
  if (WHEELS.includes(row)) return hitchOffsetKg({ row: row.split("_")[0]!, geometry }) / 2;
  const [c0, c1] = line({ row, geometry });
  return -c0 * force - c1 * (force * couplingX(geometry) + moment);
}

type Line = [number, number];

function level(share: number): Coefficient {
  return { share, per_m: 0, per_m_right: 0 };
}

function onTrailer(row: string, geometry: Geometry, x_m: number, on: string): Coefficient {
  if (geometry.trailer == null) throw new NotKnown("trailer", `the row ${row}`);
  if (row === "combination") return level(1);
  if (on === "vehicle") return level(0);
  if (row === "trailer") return level(1);
  const perM = 1 / geometry.trailer.coupling_to_axle_m;
  if (row === "trailer_axles") return { share: x_m * perM, per_m: perM, per_m_right: 0 };
  return { share: 1 - x_m * perM, per_m: -perM, per_m_right: 0 };
}

function onWheel({ row, geometry, x_m, y_m = 0, on = "vehicle", axle = null }: Place): Coefficient {
  const [end, side] = row.split("_") as [string, string];
  const track = end === "front" ? geometry.front_track_m : geometry.rear_track_m;
  if (track == null) throw new NotKnown(`${end}_track_m`, "the load of single wheels");
  const whole = coefficient({ row: end, geometry, x_m, on, axle });
  // the coupling is on the centre line
  if (on !== "vehicle") return { share: whole.share / 2, per_m: whole.per_m / 2, per_m_right: 0 };
  const right = side === "right" ? 1 : -1;
  if ((geometry.frame ?? "flexible") === "rigid") {
    const { front_roll_share = FRONT_ROLL_SHARE } = geometry;
    const lean = (right * (end === "front" ? front_roll_share : 1 - front_roll_share)) / track;
    return { share: whole.share / 2 + lean * y_m, per_m: whole.per_m / 2, per_m_right: lean };
  }
  const half = 0.5 + (right * y_m) / track;
  return { share: whole.share * half, per_m: whole.per_m * half, per_m_right: (right * whole.share) / track };
}

/** A delivered load on `axle` is carried there; a rear group's is split by its share. */
function standingOn(row: string, axle: string, geometry: Geometry): number {
  const { spread_m, rearmost_share = REARMOST_SHARE } = geometry;
  checkWord("axle", axle, ["front", "rear", ...(spread_m != null ? SINGLES : [])]);
  if (row === "gross" || row === axle) return 1;
  if (row === "rear" && axle.startsWith("rear")) return 1;
  if (SINGLES.includes(row) && axle === "rear") return row === "rear_2" ? rearmost_share : 1 - rearmost_share;
  line({ row, geometry }); // refuses a row that is not there
  return 0;
}

function onSprings(geometry: Geometry): boolean {
  return (geometry.second_axle ?? "pair") === "springs";
}

/** Each axle's (c0, c1), with every difference of sums written as a sum. */
function springs(
  { wheelbase_m, stiffness = [STIFFNESS, STIFFNESS, STIFFNESS] }: Geometry,
  spread_m: number,
): Line[] {
  const places = [0, wheelbase_m, wheelbase_m + spread_m].map((p, i) => ({ k: stiffness[i]!, p }));
  const over = (term: (k: number, q: number) => number) =>
    places.reduce((sum, { k, p }) => sum + term(k, p), 0);
  const whole = over((k, p) => over((other, q) => k * other * (p - q) ** 2)) / 2;
  return places.map(
    ({ k, p }): Line => [
      (k * over((other, q) => other * q * (q - p))) / whole,
      (k * over((other, q) => other * (p - q))) / whole,
    ],
  );
}

function pick(row: string, rows: Readonly<Record<string, Line>>): Line {
  const found = rows[row];
  if (!found) throw new Unknown("row", row, ["gross", ...Object.keys(rows)]);
  return found;
}

function couplingX({ coupling_x_m }: Geometry): number {
  if (coupling_x_m == null) throw new NotKnown("coupling_x_m", "a coupled trailer");
  return coupling_x_m;
}

function checkWord(field: string, word: string, known: readonly string[]): void {
  if (!known.includes(word)) throw new Unknown(field, word, known);
}
