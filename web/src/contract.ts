/* Generated from the server's schemas; do not edit. To renew it, in the repository's top folder:
   python -m server.api.contract | node web/tools/contract.mjs > web/src/contract.ts */

export interface ErrorBody {
  code: string;
  message: string;
  status: number;
  /**
   * dotted path of a field -> what is wrong with it
   */
  fields: {
    [k: string]: string[];
  };
}
export interface UnitChoice {
  mass?: "kg" | "lb" | "t";
  length?: "m" | "mm" | "in";
  volume?: "L" | "gal_us" | "gal_imp";
  distance?: "km" | "mi";
}
export interface Vehicle {
  as_typed?: AsTyped;
  /**
   * taken out of the plan; its versions stay
   */
  deleted?: boolean;
  note?: string;
  name: string;
  body_form?: "utility" | "wagon" | "van" | "cab_chassis";
  wheelbase_m?: number | null;
  rear_axles?: "single" | "load_sharing_pair" | "independent_pair";
  rear_spread_m?: number | null;
  rear_share?: number | null;
  stiffness_front?: number | null;
  stiffness_rear_1?: number | null;
  stiffness_rear_2?: number | null;
  frame?: "flexible" | "rigid";
  front_roll_share?: number | null;
  track_front_m?: number | null;
  track_rear_m?: number | null;
  front_overhang_m?: number | null;
  rear_overhang_m?: number | null;
  coupling_x_m?: number | null;
  base_front_kg?: number | null;
  base_front_u_kg?: number | null;
  base_rear_kg?: number | null;
  base_rear_u_kg?: number | null;
  base_correlation?: number | null;
  base_known_by?: "weighed" | "data_sheet" | "similar" | "estimate";
  base_fuel_l?: number | null;
  base_driver_kg?: number | null;
  cg_height_m?: number | null;
  cg_height_u_m?: number | null;
  odometer_factor?: number | null;
  odometer_factor_u?: number | null;
  fuel_kind?: "diesel" | "petrol" | "other";
  fuel_temperature_c?: number | null;
  fuel_temperature_u_c?: number | null;
  sealed_l_per_100km?: number | null;
  gravel_l_per_100km?: number | null;
  sand_l_per_100km?: number | null;
  towing_ratio?: number | null;
  pump_u?: number | null;
  odometer_step_km?: number | null;
  fuel_guess_u?: number | null;
  fuel_surface_u?: number | null;
  fuel_drift?: number | null;
  fuel_surface_drift?: number | null;
  fuel_unsteady_km?: number | null;
  fuel_reserve_l?: number | null;
  water_l_per_day?: number | null;
  water_guess_u?: number | null;
  water_drift?: number | null;
  water_fill_u?: number | null;
  water_reserve_l?: number | null;
  terms?: "au" | "eu" | "uk" | "us" | "za" | "nz";
  units?: UnitChoice;
  confidence?: number | null;
  forgotten_share?: number | null;
}
/**
 * field -> [digits with a decimal point, unit]: a typed figure's evidence
 */
export interface AsTyped {
  /**
   * @minItems 2
   * @maxItems 2
   */
  [k: string]: [string, string];
}
export interface Trailer {
  as_typed?: AsTyped;
  /**
   * taken out of the plan; its versions stay
   */
  deleted?: boolean;
  note?: string;
  name: string;
  body_form?: "box" | "open";
  coupling_to_axle_m?: number | null;
  axles?: number;
  rear_overhang_m?: number | null;
  base_coupling_kg?: number | null;
  base_coupling_u_kg?: number | null;
  base_axles_kg?: number | null;
  base_axles_u_kg?: number | null;
  least_coupling_kg?: number | null;
  base_known_by?: "weighed" | "data_sheet" | "similar" | "estimate";
  levelling_hitch?: boolean;
  hitch_moment_kgm?: number | null;
}
export interface Plate {
  as_typed?: AsTyped;
  /**
   * taken out of the plan; its versions stay
   */
  deleted?: boolean;
  note?: string;
  of: "vehicle" | "towbar" | "coupling" | "trailer" | "rack" | "tyres";
  trailer_id?: string | null;
  date_from?: string | null;
  standing?: "in_force" | "planned";
  issuer?: string;
  conditions?: string;
  gross_kg?: number | null;
  front_axle_kg?: number | null;
  rear_axle_kg?: number | null;
  combination_kg?: number | null;
  trailer_kg?: number | null;
  trailer_axles_kg?: number | null;
  coupling_kg?: number | null;
  roof_kg?: number | null;
  tyre_size?: string;
  tyre_load_index?: number | null;
  tyre_axle?: "front" | "rear" | "both" | "trailer";
  tyres_per_axle?: number;
  photos?: string[];
}
export interface Slot {
  label?: string;
  trailer_id?: string | null;
  roof?: boolean;
  x_m: number;
  y_m?: number | null;
  z_m?: number | null;
}
export interface Item {
  as_typed?: AsTyped;
  /**
   * taken out of the plan; its versions stay
   */
  deleted?: boolean;
  note?: string;
  name: string;
  nature: "part" | "load";
  mass_kg?: number | null;
  mass_u_kg?: number | null;
  known_by?: "weighed" | "data_sheet" | "similar" | "estimate";
  count?: number;
  weighed_singly?: boolean;
  taken_off?: boolean;
  roof?: boolean;
  trailer_id?: string | null;
  x_m?: number | null;
  x_u_m?: number | null;
  y_m?: number | null;
  y_u_m?: number | null;
  z_m?: number | null;
  z_u_m?: number | null;
  position_by?: "measured" | "described";
  stage?: "fitted" | "on_order" | "removed";
  fitted_on?: string | null;
  removed_on?: string | null;
  may_move_to?: Slot[];
  may_stay_behind?: boolean | null;
  keep_aboard?: boolean | null;
  article_id?: string | null;
}
export interface Tank {
  as_typed?: AsTyped;
  /**
   * taken out of the plan; its versions stay
   */
  deleted?: boolean;
  note?: string;
  name: string;
  holds: "fuel" | "water" | "grey" | "waste" | "gas" | "stores";
  trailer_id?: string | null;
  can?: boolean;
  empty_mass_kg?: number | null;
  empty_mass_u_kg?: number | null;
  capacity_l?: number | null;
  capacity_u_l?: number | null;
  unusable_l?: number | null;
  full_u_l?: number | null;
  gauge_u?: number | null;
  density_kg_per_l?: number | null;
  density_u_kg_per_l?: number | null;
  x_m?: number | null;
  x_u_m?: number | null;
  y_m?: number | null;
  position_by?: "measured" | "described";
  z_bottom_m?: number | null;
  height_m?: number | null;
  /**
   * along the vehicle
   */
  length_m?: number | null;
  breadth_m?: number | null;
  drain_order?: number | null;
  grey_tank_id?: string | null;
  grey_fraction?: number | null;
  emergency_reserve?: boolean;
}
export interface Seat {
  as_typed?: AsTyped;
  /**
   * taken out of the plan; its versions stay
   */
  deleted?: boolean;
  note?: string;
  name: string;
  x_m?: number | null;
  x_u_m?: number | null;
  y_m?: number | null;
  z_m?: number | null;
  position_by?: "measured" | "described";
  usual_person_id?: string | null;
}
export interface Person {
  as_typed?: AsTyped;
  /**
   * taken out of the plan; its versions stay
   */
  deleted?: boolean;
  note?: string;
  name: string;
  nature: "person" | "animal";
  child?: boolean;
  mass_kg?: number | null;
  mass_u_kg?: number | null;
  mass_on?: string | null;
  water_share?: number | null;
  usual_seat_id?: string | null;
}
export interface Surface {
  sealed: number;
  gravel: number;
  sand: number;
}
export interface RouteLeg {
  as_typed?: AsTyped;
  label?: string;
  distance_km: number;
  surface: Surface;
  /**
   * null: as it is when the route begins
   */
  towing?: boolean | null;
  days?: number | null;
}
export interface RouteSupply {
  as_typed?: AsTyped;
  name: string;
  at_km: number;
  fuel: boolean;
  water: boolean;
  certain: boolean;
  /**
   * struck out by somebody
   */
  shut?: boolean;
  /**
   * litres to take on; null fills up
   */
  fuel_take_l?: number | null;
  /**
   * litres to take on; null fills up
   */
  water_take_l?: number | null;
  latitude_deg?: number | null;
  longitude_deg?: number | null;
  note?: string;
}
export interface OnTheWay {
  as_typed?: AsTyped;
  at_km: number;
  what: "person" | "item" | "load" | "grey";
  /**
   * the person, the item or the grey tank
   */
  subject_id?: string | null;
  aboard?: boolean | null;
  name?: string;
  mass_kg?: number | null;
  mass_u_kg?: number | null;
  x_m?: number | null;
  until_km?: number | null;
}
export interface Route {
  as_typed?: AsTyped;
  /**
   * taken out of the plan; its versions stay
   */
  deleted?: boolean;
  note?: string;
  name: string;
  legs: RouteLeg[];
  supplies?: RouteSupply[];
  changes?: OnTheWay[];
  begun_odometer_km?: number | null;
  day_km?: number | null;
  fuel_reserve_l?: number | null;
  water_reserve_l?: number | null;
  /**
   * @maxItems 60
   */
  people_ids?: string[] | null;
}
export interface Aboard {
  as_typed?: AsTyped;
  /**
   * when it happened
   */
  at: string;
  zone: string;
  /**
   * the entry that this one replaces
   */
  corrects?: string | null;
  reason?: string;
  note?: string;
  subject: "person" | "item" | "trailer";
  subject_id: string;
  aboard: boolean;
  seat_id?: string | null;
  until?: string | null;
  why?: "left" | "lent" | "used_up" | "lost";
}
export interface Bridge {
  key?: string | null;
  name?: string | null;
  site_number?: string | null;
  form?: "single_deck" | "multi_deck" | "pads";
  interval_kg?: number | null;
  displayed_interval_kg?: number | null;
  accuracy_class?: "III" | "IIII" | "percent";
  percent?: number | null;
  max_kg?: number | null;
  settled_by?: "default" | "guessed_from_readings" | "confirmed";
}
export interface Difference {
  seats_empty?: string[];
  uncoupled?: boolean;
  text?: string;
}
export interface Reading {
  as_typed?: AsTyped;
  id: string;
  on_deck: (
    | "front"
    | "rear"
    | "rear_1"
    | "rear_2"
    | "trailer"
    | "front_left"
    | "front_right"
    | "rear_left"
    | "rear_right"
  )[];
  value_kg: number;
  /**
   * part of the vehicle stood beside the deck
   */
  split?: boolean;
  repeat_of?: string | null;
  /**
   * which deck or pad, where there are several
   */
  deck?: string | null;
  /**
   * from which side it was driven on
   */
  approach?: string | null;
  differs?: Difference | null;
  /**
   * why a person set this reading aside
   */
  struck_out?: string | null;
}
export interface TankState {
  tank_id: string;
  level: number;
  level_u: number;
  known_from: "estimate" | "dip" | "typed" | "prior";
}
export interface SeatState {
  seat_id: string;
  person_id?: string | null;
  mass_kg: number;
  mass_u_kg: number;
}
export interface ItemState {
  item_id: string;
  aboard: boolean;
}
export interface TrailerState {
  trailer_id: string;
  coupled: boolean;
}
export interface PlanReference {
  id: string;
  rev: string;
}
export interface State {
  settled_by: "as_logged" | "confirmed";
  tanks: TankState[];
  seats: SeatState[];
  trailers: TrailerState[];
  fuel_temperature_c?: number | null;
  fuel_temperature_u_c?: number | null;
  plan: PlanReference[];
  items: ItemState[];
}
export interface Place {
  name?: string | null;
  latitude_deg?: number | null;
  longitude_deg?: number | null;
}
export interface Weighing {
  as_typed?: AsTyped;
  /**
   * when it happened
   */
  at: string;
  zone: string;
  /**
   * the entry that this one replaces
   */
  corrects?: string | null;
  reason?: string;
  note?: string;
  bridge: Bridge;
  readings: Reading[];
  state?: State | null;
  place?: Place | null;
  odometer_km?: number | null;
  ticket_number?: string;
  photos?: string[];
}
export interface FillLine {
  as_typed?: AsTyped;
  tank_id: string;
  litres_l: number;
  litres_u_l?: number | null;
  /**
   * by a meter; otherwise about
   */
  measured?: boolean;
  /**
   * to the pump's shut-off
   */
  full: boolean;
}
export interface Price {
  amount: string;
  currency: string;
}
export interface Fill {
  as_typed?: AsTyped;
  /**
   * when it happened
   */
  at: string;
  zone: string;
  /**
   * the entry that this one replaces
   */
  corrects?: string | null;
  reason?: string;
  note?: string;
  odometer_km?: number | null;
  lines: FillLine[];
  /**
   * a fill before this one was not entered
   */
  missed_before?: boolean;
  surface?: Surface | null;
  towing?: boolean | null;
  price?: Price | null;
  place?: Place | null;
}
export interface Dip {
  as_typed?: AsTyped;
  /**
   * when it happened
   */
  at: string;
  zone: string;
  /**
   * the entry that this one replaces
   */
  corrects?: string | null;
  reason?: string;
  note?: string;
  odometer_km?: number | null;
  tank_id: string;
  level?: number | null;
  level_u?: number | null;
  litres_l?: number | null;
  litres_u_l?: number | null;
  how: "gauge" | "stick" | "tube" | "lamps";
  surface?: Surface | null;
  towing?: boolean | null;
}
export interface Transfer {
  as_typed?: AsTyped;
  /**
   * when it happened
   */
  at: string;
  zone: string;
  /**
   * the entry that this one replaces
   */
  corrects?: string | null;
  reason?: string;
  note?: string;
  odometer_km?: number | null;
  from_tank_id: string;
  to_tank_id?: string | null;
  out?: "given_away" | "spilled" | "heater";
  litres_l?: number | null;
  litres_u_l?: number | null;
  everything?: boolean;
}
export interface Water {
  as_typed?: AsTyped;
  /**
   * when it happened
   */
  at: string;
  zone: string;
  /**
   * the entry that this one replaces
   */
  corrects?: string | null;
  reason?: string;
  note?: string;
  tank_id: string;
  action: "fill" | "draw" | "dump";
  litres_l: number;
  litres_u_l?: number | null;
  measured?: boolean;
  full?: boolean;
  /**
   * drawn or dumped to the last drop; the litres then say nothing
   */
  everything?: boolean;
  source?: "mains" | "bore" | "rain" | "surface" | "bought" | "unknown";
  drinkable: "yes" | "no" | "unknown";
  place?: Place | null;
}
export interface Event {
  as_typed?: AsTyped;
  /**
   * when it happened
   */
  at: string;
  zone: string;
  /**
   * the entry that this one replaces
   */
  corrects?: string | null;
  reason?: string;
  note?: string;
  odometer_km?: number | null;
  what: "tyres" | "roof_load" | "other" | "surface" | "supply" | "heat" | "company" | "washing";
  /**
   * how far it may move the rates, one sd, relative
   */
  rate_u?: number | null;
  /**
   * true km per km of the odometer until now
   */
  factor_before?: number | null;
  /**
   * the same from now on
   */
  factor_after?: number | null;
  surface?: Surface | null;
  towing?: boolean | null;
  /**
   * how far it may move the use of water, one sd, relative
   */
  water_rate_u?: number | null;
  /**
   * the place, as routes name it
   */
  supply?: string;
  /**
   * what is said of it
   */
  found?: "open" | "shut" | "no_fuel" | "no_water";
}
export interface Correction {
  as_typed?: AsTyped;
  /**
   * when it happened
   */
  at: string;
  zone: string;
  /**
   * the entry that this one replaces
   */
  corrects?: string | null;
  reason?: string;
  note?: string;
  of_id: string;
  what: "struck_out" | "same_as" | "other_vehicle" | "kept";
  other_id?: string | null;
}
export interface Mutation {
  /**
   * names the mutation and is the revision that it makes
   */
  mut: string;
  book: string;
  kind: Kind;
  id: string;
  /**
   * null for a new record
   */
  base_rev: string | null;
  body: Kinds[Kind] | Changes[keyof Changes];
  made_at: string;
  utc_offset_min: number;
  device_seq: number;
  schema: number;
}
export interface Health {
  status: "ok";
  /**
   * id of the database's history
   */
  generation: string;
}
export interface Credentials {
  name: string;
  password: string;
}
export interface User {
  id: string;
  name: string;
}
export interface Session {
  user: User;
  ends_at: string;
}
export interface BookMark {
  book: string;
  checkpoint: number;
  /**
   * entries of the book that the device holds besides `mutations`
   */
  unsent?: number;
}
export interface SyncRequest {
  device: string;
  mutations: Mutation[];
  books: BookMark[];
  /**
   * `now` of the answer whose `heard` the device has
   */
  heard_since?: string;
}
export interface MutationError {
  code: string;
  message: string;
  fields: {
    [k: string]: string[];
  };
}
export interface Answer {
  mut: string | null;
  outcome: "applied" | "duplicate" | "conflict" | "wait" | "rejected";
  error?: MutationError;
}
export interface Member {
  user: string;
  name: string;
  role: "owner" | "co_driver" | "fitter";
}
export interface Version {
  book: string;
  seq: number;
  rev: string;
  kind: Kind;
  id: string;
  base_rev: string | null;
  standing: "applied" | "conflict";
  body: Kinds[Kind];
  author: string;
  device: string;
  device_seq: number;
  made_at: string;
  utc_offset_min: number;
  received_at: string;
}
export interface BookNews {
  book: string;
  role: "owner" | "co_driver" | "fitter";
  checkpoint: number;
  more: boolean;
  members: Member[];
  versions: Version[];
}
export interface Heard {
  book: string;
  user: string;
  device: string;
  at: string;
  unsent: number | null;
}
export interface SyncAnswer {
  user: User;
  now: string;
  /**
   * another one after a restore: read from 0 again
   */
  generation: string;
  answers: Answer[];
  books: BookNews[];
  gone: string[];
  heard: Heard[];
}
export interface Members {
  members: Member[];
}
export interface NewMember {
  name: string;
  role: "owner" | "co_driver" | "fitter";
}
export interface CurrentRecord {
  id: string;
  kind: Kind;
  rev: string;
  seq: number;
  body: Kinds[Kind];
}
export interface Records {
  records: CurrentRecord[];
  next: string | null;
}
export interface Compared {
  comparison: {
    [k: string]: unknown;
  } | null;
}
/**
 * kind -> its record
 */
export interface Kinds {
  vehicle: Vehicle;
  trailer: Trailer;
  plate: Plate;
  item: Item;
  tank: Tank;
  seat: Seat;
  person: Person;
  route: Route;
  aboard: Aboard;
  weighing: Weighing;
  fill: Fill;
  dip: Dip;
  transfer: Transfer;
  water: Water;
  event: Event;
  correction: Correction;
}
/**
 * kind -> the body of an edit; log entries are never edited
 */
export interface Changes {
  vehicle: Partial<Vehicle>;
  trailer: Partial<Trailer>;
  plate: Partial<Plate>;
  item: Partial<Item>;
  tank: Partial<Tank>;
  seat: Partial<Seat>;
  person: Partial<Person>;
  route: Partial<Route>;
}
export type Kind = keyof Kinds;
