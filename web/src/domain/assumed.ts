/** Everything that a plan takes for granted because a record does not say it: what, how much, and which blank replaces it. */
import { FRONT_ROLL_SHARE, REARMOST_SHARE, STIFFNESS } from "./axles";
import type { Body, Book, Row } from "./book";
import { KINDS, NOTHING } from "./forgotten";
import { CONFIDENCE } from "./limits";
import {
  CAPACITY_U_L,
  contentOf,
  DESCRIBED_U_M,
  FUEL_C,
  FUEL_U_C,
  MASS_SHARE,
  MEASURED_U_M,
  MIDDLE_M,
  MIDDLE_U_M,
  STATED_DENSITY_U,
  statedDensity,
  UNUSABLE_L,
} from "./parts";
import { BASE_CORRELATION, type Missing } from "./plan";
import { PERSON_U_KG } from "./state";

/** One default with the blanks that it stands for; `value` is null where it is a word, in `code`; `u` the usual one or that of the record. */
export interface Assumed {
  readonly code: string;
  readonly value: number | null;
  readonly u: number | null;
  readonly blanks: readonly Missing[];
}

type Told = readonly [code: string, value: number | null, u: number | null, blank: Missing];

const BASE: Readonly<Record<string, readonly string[]>> = {
  vehicle: ["base_front", "base_rear"],
  trailer: ["base_coupling", "base_axles"],
};
const REAR: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  load_sharing_pair: { rear_share: REARMOST_SHARE },
  independent_pair: {
    stiffness_front: STIFFNESS,
    stiffness_rear_1: STIFFNESS,
    stiffness_rear_2: STIFFNESS,
  },
};

/** The defaults that the plan of a book rests on, each once, with every blank that it fills. */
export function assumed({ book }: { readonly book: Book }): Assumed[] {
  const found = new Map<
    string,
    { code: string; value: number | null; u: number | null; blanks: Missing[] }
  >();
  const told = [ofVehicle(book), ofTrailers(book), ofItems(book), ofTanks(book), ofPeople(book)];
  for (const some of told)
    for (const [code, value, u, blank] of some) {
      const of = found.get(`${code} ${u}`);
      if (of) of.blanks.push(blank);
      else found.set(`${code} ${u}`, { code, value, u, blanks: [blank] });
    }
  return [...found.values()];
}

function* ofVehicle(book: Book): Iterable<Told> {
  const row = book.vehicle;
  if (!row) return;
  const { body } = row;
  yield* baseMasses(row);
  const defaults: Record<string, number | null> = { confidence: CONFIDENCE };
  if (body.rear_axles == null) defaults.rear_axles = null;
  Object.assign(defaults, REAR[body.rear_axles ?? ""]);
  if (body.base_front_kg != null && body.base_rear_kg != null) defaults.base_correlation = BASE_CORRELATION;
  if (body.cg_height_m != null) defaults.cg_height_u_m = DESCRIBED_U_M;
  if (body.track_front_m != null && body.track_rear_m != null)
    Object.assign(
      defaults,
      body.frame === "rigid" ? { front_roll_share: FRONT_ROLL_SHARE } : { frame: null },
    );
  if (book.tanks.some((tank) => tank.body.holds === "fuel" && tank.body.density_kg_per_l == null))
    defaults.fuel_kind = null;
  for (const [field, value] of Object.entries(defaults)) yield* blank(row, field, field, value);
  if (book.tanks.some((tank) => tank.body.holds === "fuel")) yield* fuelTemperature(row);
  if (book.items.length > 0) yield forgotten(row);
}

/** How warm fuel is where no weighing says so. */
function* fuelTemperature(row: Row): Iterable<Told> {
  const { id: record_id, body } = row;
  const u: number | null = body.fuel_temperature_u_c ?? null;
  const here = { record_id, kind: "vehicle", field: "fuel_temperature_c" };
  if (body.fuel_temperature_c == null) yield ["fuel_temperature_c", FUEL_C, u ?? FUEL_U_C, here];
  else yield* blank(row, "fuel_temperature_u_c", "fuel_temperature_u_c", FUEL_U_C);
}

/** Nothing is forgotten; or where a share is counted, of how many kinds of things it is. */
function forgotten({ id, body }: Row): Told {
  const here = { record_id: id, kind: "vehicle", field: "forgotten_share" };
  return body.forgotten_share
    ? ["forgotten_kinds", KINDS, null, here]
    : ["forgotten_share", NOTHING, null, here];
}

function* ofTrailers({ trailers }: Book): Iterable<Told> {
  for (const row of trailers) yield* baseMasses(row);
}

function* baseMasses(row: Row): Iterable<Told> {
  const { id: record_id, kind, body } = row;
  const blanks = BASE[kind]!.filter((end) => body[`${end}_kg`] != null && body[`${end}_u_kg`] == null);
  if (blanks.length > 0) yield* blank(row, "known_by", "base_known_by", null);
  const known_by: string = body.base_known_by || "estimate";
  for (const end of blanks)
    yield [`mass_${known_by}`, MASS_SHARE[known_by]!, null, { record_id, kind, field: `${end}_u_kg` }];
}

function* ofItems({ items }: Book): Iterable<Told> {
  for (const row of items) {
    const { id: record_id, body } = row;
    if (body.stage === "removed" || body.mass_kg == null || body.x_m == null) continue;
    if (body.mass_u_kg == null) {
      yield* blank(row, "known_by", "known_by", null);
      const known_by: string = body.known_by || "estimate";
      yield [
        `mass_${known_by}`,
        MASS_SHARE[known_by]!,
        null,
        { record_id, kind: "item", field: "mass_u_kg" },
      ];
    }
    if ((body.count || 1) > 1) yield* blank(row, "weighed_singly", "weighed_singly", null);
    yield* placeOf(row);
  }
}

function* ofTanks({ tanks, vehicle }: Book): Iterable<Told> {
  for (const row of tanks) {
    const { id: record_id, body } = row;
    if (body.capacity_l == null || body.x_m == null) continue;
    const fuel_kind: string | null = vehicle?.body.fuel_kind ?? null;
    const content = contentOf(body, fuel_kind);
    const here = { record_id, kind: "tank", field: "density_kg_per_l" };
    if (body.density_kg_per_l == null) yield [`density_${content}`, ...statedDensity(body, fuel_kind), here];
    else yield* blank(row, "density_u_kg_per_l", "density_u_kg_per_l", STATED_DENSITY_U);
    yield* blank(row, "capacity_u_l", "capacity_u_l", CAPACITY_U_L);
    if (["fuel", "water"].includes(body.holds)) yield* blank(row, "unusable_l", "unusable_l", UNUSABLE_L);
    if (body.empty_mass_kg) yield* blank(row, "mass_data_sheet", "empty_mass_u_kg", MASS_SHARE.data_sheet!);
    yield* placeOf(row);
  }
}

function* ofPeople({ seats, people }: Book): Iterable<Told> {
  for (const row of seats) if (row.body.x_m != null) yield* placeOf(row);
  for (const row of people)
    if (row.body.mass_kg != null) yield* blank(row, "occupant", "mass_u_kg", PERSON_U_KG);
}

function* placeOf(row: Row): Iterable<Told> {
  const { id: record_id, kind, body } = row;
  if (body.x_u_m == null) {
    yield* blank(row, "position_by", "position_by", null);
    const by = body.position_by === "measured" ? "measured" : "described";
    const u_m = by === "measured" ? MEASURED_U_M : DESCRIBED_U_M;
    yield [`place_${by}`, u_m, null, { record_id, kind, field: "x_u_m" }];
  }
  // in the middle, and exactly there
  if (!body.trailer_id && body.y_m == null)
    yield ["y_m", MIDDLE_M, MIDDLE_U_M, { record_id, kind, field: "y_m" }];
}

function* blank(row: Row, code: string, field: string, value: number | null): Iterable<Told> {
  const body: Body = row.body;
  if (body[field] == null) yield [code, value, null, { record_id: row.id, kind: row.kind, field }];
}
