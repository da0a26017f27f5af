/** Tyres: what a designation says, what an axle of them may carry, how big they are (design, unloaded, new). */
import { checkRange, DomainError, NotKnown, Unknown } from "./errors";

/** mm per rim code: UN R30. */
const INCH_MM = 25.4;
export const LEAST_INDEX = 60;
export const GREATEST_INDEX = 130;

/** kg for the indices 60 to 130: ISO 4000-1, ETRTO, UN R30 and R54 Annex 4, as nine open tables have it. */
export const LOADS_KG: readonly number[] = [
  250, 257, 265, 272, 280, 290, 300, 307, 315, 325, 335, 345, 355, 365, 375, 387, 400, 412, 425, 437, 450,
  462, 475, 487, 500, 515, 530, 545, 560, 580, 600, 615, 630, 650, 670, 690, 710, 730, 750, 775, 800, 825,
  850, 875, 900, 925, 950, 975, 1000, 1030, 1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360, 1400,
  1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850, 1900,
];

/** Speed symbol -> km/h, slowest first; H sits after U. UN R30 and R54. */
export const SPEEDS_KMH: Readonly<Record<string, number>> = {
  ...{ F: 80, G: 90, J: 100, K: 110, L: 120, M: 130, N: 140, P: 150, Q: 160 },
  ...{ R: 170, S: 180, T: 190, U: 200, H: 210, V: 240, W: 270, Y: 300 },
};

/** One u of a tyre's diameter: tread worn by 0 to 7 mm, 14 mm of diameter, rectangular (assumed). */
export const DIAMETER_U_M = 0.004;

const FORM = "a size as on the sidewall: 265/70R17 121/118S, 7.50R16 or 31x10.5R15";
const BUILD = "(?:\\s*(?:Z?R|D|B|-|/)\\s*|\\s+)";
const MARKS = "(?:\\s*(?:LT|C|XL|TL|TT|M\\+S|[0-9]{1,2}\\s?PR))*";
const RIM = "([0-9]{1,2}(?:\\.5)?)";
const INDEX = "(?:\\s*\\(?([0-9]{2,3})(?:\\s*/\\s*([0-9]{2,3}))?\\s*([A-Z])?\\)?)?";
const REST = `${BUILD}${RIM}${MARKS}${INDEX}${MARKS}$`;
const METRIC = new RegExp(`^(?:P|LT|ST)?\\s*([0-9]{3})(?:(?:\\s*[/-]\\s*|\\s+)([0-9]{2,3}))?${REST}`);
const INCHES = new RegExp(`^(?:LT|ST)?\\s*([0-9]{1,2}(?:\\.[0-9]{1,2})?)()(?=\\s*[RD-])${REST}`);
const BY_DIAMETER = new RegExp(
  `^(?:LT)?\\s*([0-9]{2}(?:\\.[0-9]{1,2})?)\\s*X\\s*([0-9]{1,2}(?:\\.[0-9]{1,2})?)${REST}`,
);

/** What a sidewall says; what it does not say is null. `aspect_percent` is the section's height over its width. */
export interface Designation {
  readonly width_mm: number;
  readonly aspect_percent: number | null;
  readonly rim_code: number;
  readonly load_index: number | null;
  readonly load_index_dual: number | null;
  readonly speed_symbol: string | null;
}

/** True km per km on the odometer, and its u. */
export interface Factor {
  readonly factor: number;
  readonly factor_u: number;
}

/** Tyres as a plate states them; what cannot be read or looked up is null, never guessed. */
export interface Fitted {
  readonly designation: Designation | null;
  readonly load_index: number | null;
  readonly tyre_kg: number | null;
  readonly axle_kg: number | null;
  readonly diameter_m: number | null;
}

/** Read a tyre's designation as people type it; what cannot be read is refused, with the form expected. */
export function parseDesignation({ text }: { readonly text: string }): Designation {
  const typed = text.toUpperCase().replaceAll(",", ".").replaceAll("×", "X").split(/\s+/).join(" ").trim();
  const [metric, inches] = [METRIC.exec(typed), INCHES.exec(typed)];
  const found = metric ?? inches ?? BY_DIAMETER.exec(typed);
  if (!found) throw unreadable(text);
  const [first, second, rim_code] = [Number(found[1]), Number(found[2] || 0), Number(found[3])];
  let [width_mm, aspect_percent]: [number, number | null] = [first, second || null];
  if (!metric && inches) width_mm = first * INCH_MM;
  else if (!metric) {
    width_mm = second * INCH_MM;
    aspect_percent = second ? (100 * (first - rim_code)) / (2 * second) : null;
  }
  const [load_index, load_index_dual] = [whole(found[4]), whole(found[5])];
  const speed_symbol = found[6] || null;
  const out = { width_mm, aspect_percent, rim_code, load_index, load_index_dual, speed_symbol };
  if (!possible(out)) throw unreadable(text);
  return out;
}

function whole(digits: string | undefined): number | null {
  return digits ? Number(digits) : null;
}

function unreadable(text: string): DomainError {
  return new DomainError("tyre_size", text, FORM, "Type it as it stands on the tyre");
}

function possible(one: Designation): boolean {
  const { width_mm, aspect_percent, rim_code, load_index, load_index_dual, speed_symbol } = one;
  return (
    between(width_mm, 100, 460) &&
    (aspect_percent === null || between(aspect_percent, 20, 110)) &&
    between(rim_code, 8, 30) &&
    (load_index_dual === null || load_index === null || load_index_dual <= load_index) &&
    (speed_symbol === null || Object.hasOwn(SPEEDS_KMH, speed_symbol))
  );
}

function between(value: number, low: number, high: number): boolean {
  return low <= value && value <= high;
}

/** What one tyre with this load index may carry, kg; whole, 60 to 130. */
export function loadCapacityKg({ load_index }: { readonly load_index: number }): number {
  checkRange("load_index", load_index, { low: LEAST_INDEX, high: GREATEST_INDEX });
  if (!Number.isInteger(load_index))
    throw new DomainError("load_index", load_index, "a whole number", "Type it as it stands on the tyre");
  return LOADS_KG[load_index - LEAST_INDEX]!;
}

export interface AxleCapacity {
  readonly load_index: number;
  readonly tyres?: number;
}

/** What the tyres of one axle may carry together, kg; with twin tyres by the dual index. */
export function axleCapacityKg({ load_index, tyres = 2 }: AxleCapacity): number {
  checkRange("tyres_per_axle", tyres, { low: 2, high: 4 });
  if (!Number.isInteger(tyres))
    throw new DomainError("tyres_per_axle", tyres, "a whole number", "Count the tyres of one axle");
  return loadCapacityKg({ load_index }) * tyres;
}

/** Highest speed that a speed symbol stands for, km/h. */
export function topSpeedKmh({ speed_symbol }: { readonly speed_symbol: string }): number {
  if (!Object.hasOwn(SPEEDS_KMH, speed_symbol))
    throw new Unknown("speed_symbol", speed_symbol, Object.keys(SPEEDS_KMH));
  return SPEEDS_KMH[speed_symbol]!;
}

export interface OverallDiameter {
  readonly width_mm: number;
  readonly aspect_percent: number | null;
  readonly rim_code: number;
}

/** Design diameter of a tyre, m: D = d + 2 H, H = S1 Ra / 100, d = 25.4 mm per rim code (UN R30 6.1.2). */
export function overallDiameterM({ width_mm, aspect_percent, rim_code }: OverallDiameter): number {
  checkRange("width_mm", width_mm, { low: 100, high: 460, unit: "mm" });
  checkRange("rim_code", rim_code, { low: 8, high: 30 });
  if (aspect_percent === null) throw new NotKnown("aspect_percent", "the overall diameter");
  checkRange("aspect_percent", aspect_percent, { low: 20, high: 110, unit: "%" });
  return (INCH_MM * rim_code + (2 * width_mm * aspect_percent) / 100) / 1000;
}

/** Way of one turn of the unloaded tyre, m. */
export function circumferenceM({ diameter_m }: { readonly diameter_m: number }): number {
  return Math.PI * checkRange("diameter_m", diameter_m, { low: 0.3, high: 2, unit: "m" });
}

/** Turns of the unloaded tyre in one km. */
export function revolutionsPerKm({ diameter_m }: { readonly diameter_m: number }): number {
  return 1000 / circumferenceM({ diameter_m });
}

export interface OdometerFactor {
  readonly from_diameter_m: number;
  readonly to_diameter_m: number;
  readonly factor?: number;
  readonly factor_u?: number;
  readonly from_u_m?: number;
  readonly to_u_m?: number;
}

/** True km per indicated km after a change of tyre size: k' = k D' / D, with independent errors. */
export function odometerFactor(change: OdometerFactor): Factor {
  const {
    from_diameter_m,
    to_diameter_m,
    factor: before = 1,
    factor_u = 0,
    from_u_m = 0,
    to_u_m = 0,
  } = change;
  checkRange("from_diameter_m", from_diameter_m, { low: 0.3, high: 2, unit: "m" });
  checkRange("to_diameter_m", to_diameter_m, { low: 0.3, high: 2, unit: "m" });
  checkRange("factor", before, { low: 0.5, high: 2 });
  const shares = [
    checkRange("factor_u", factor_u, { low: 0 }) / before,
    checkRange("from_u_m", from_u_m, { low: 0, unit: "m" }) / from_diameter_m,
    checkRange("to_u_m", to_u_m, { low: 0, unit: "m" }) / to_diameter_m,
  ];
  const factor = (before * to_diameter_m) / from_diameter_m;
  return { factor, factor_u: factor * Math.sqrt(shares.reduce((sum, one) => sum + one * one, 0)) };
}

/** The most that a speedometer may show at a true speed, km/h: 1.1 V + 4 (UN R39 5.3). */
export function highestReadingKmh({ true_speed_kmh }: { readonly true_speed_kmh: number }): number {
  return 1.1 * checkRange("true_speed_kmh", true_speed_kmh, { low: 0, high: 300, unit: "km/h" }) + 4;
}

export interface FittedTyres {
  readonly tyre_size?: string | null;
  readonly tyre_load_index?: number | null;
  readonly tyres_per_axle?: number | null;
}

/** What a plate's tyres may carry and measure; refuses nothing: what it cannot tell is null. */
export function fitted({ tyre_size, tyre_load_index, tyres_per_axle }: FittedTyres): Fitted {
  const designation = readOf(tyre_size ?? "");
  const tyres = tyres_per_axle ?? 2;
  const load_index = indexOf(designation, tyre_load_index ?? null, tyres);
  const known =
    load_index !== null && between(load_index, LEAST_INDEX, GREATEST_INDEX) && [2, 3, 4].includes(tyres);
  const tyre_kg = known ? loadCapacityKg({ load_index }) : null;
  const axle_kg = tyre_kg === null ? null : tyre_kg * tyres;
  const sized = designation !== null && designation.aspect_percent !== null;
  return {
    designation,
    load_index,
    tyre_kg,
    axle_kg,
    diameter_m: sized ? overallDiameterM(designation) : null,
  };
}

/** The index that holds for one tyre of this fitting. */
function indexOf(read: Designation | null, stated: number | null, tyres: number): number | null {
  const { load_index: single = null, load_index_dual: dual = null } = read ?? {};
  if (stated !== null && (tyres <= 2 || dual === null || stated !== single))
    return Number.isInteger(stated) ? stated : null;
  return tyres > 2 ? dual : single;
}

function readOf(text: string): Designation | null {
  try {
    return text.trim() ? parseDesignation({ text }) : null;
  } catch (refusal) {
    if (refusal instanceof DomainError) return null;
    throw refusal;
  }
}
