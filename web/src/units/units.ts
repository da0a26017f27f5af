/** The fixed list of units, equal to the server's: word, dimension, and how many base units one is. */

export type Dimension =
  | "mass"
  | "length"
  | "volume"
  | "distance"
  | "fraction"
  | "density"
  | "moment"
  | "temperature"
  | "angle";

export const BASE_UNIT: Readonly<Record<Dimension, string>> = {
  mass: "kg",
  length: "m",
  volume: "L",
  distance: "km",
  fraction: "1",
  density: "kg/L",
  moment: "kgm",
  temperature: "C",
  angle: "deg",
};

interface Unit {
  readonly dimension: Dimension;
  readonly factor: number;
}

// Pound: international agreement of 1959, NIST SP 811. US gallon: 231 cubic inches, NIST SP 811. Imperial gallon:
// UK Units of Measurement Regulations. Newton metre: 1/9.80665 kg m, standard gravity (3rd CGPM 1901). Mile and inch: exact by the same agreement.
export const UNITS: Readonly<Record<string, Unit>> = {
  kg: { dimension: "mass", factor: 1 },
  t: { dimension: "mass", factor: 1000 },
  g: { dimension: "mass", factor: 0.001 },
  lb: { dimension: "mass", factor: 0.45359237 },
  m: { dimension: "length", factor: 1 },
  cm: { dimension: "length", factor: 0.01 },
  mm: { dimension: "length", factor: 0.001 },
  ft: { dimension: "length", factor: 0.3048 },
  in: { dimension: "length", factor: 0.0254 },
  L: { dimension: "volume", factor: 1 },
  mL: { dimension: "volume", factor: 0.001 },
  gal_us: { dimension: "volume", factor: 3.785411784 },
  gal_imp: { dimension: "volume", factor: 4.54609 },
  km: { dimension: "distance", factor: 1 },
  mi: { dimension: "distance", factor: 1.609344 },
  "1": { dimension: "fraction", factor: 1 },
  "%": { dimension: "fraction", factor: 0.01 },
  "kg/L": { dimension: "density", factor: 1 },
  deg: { dimension: "angle", factor: 1 },
  kgm: { dimension: "moment", factor: 1 },
  Nm: { dimension: "moment", factor: 0.10197162129779283 },
  C: { dimension: "temperature", factor: 1 },
};

/** What a person sees for a unit. */
export const SHOWN: Readonly<Record<string, string>> = {
  gal_us: "US gal",
  gal_imp: "imp gal",
  "1": "",
  kgm: "kg m",
  deg: "°",
  Nm: "N m",
  C: "°C",
};

/** All unit words of one dimension, the base unit first. */
export function unitsOf(dimension: Dimension): string[] {
  return Object.keys(UNITS)
    .filter((word) => UNITS[word]!.dimension === dimension)
    .sort((a, b) => Number(b === BASE_UNIT[dimension]) - Number(a === BASE_UNIT[dimension]));
}

/** The unit as shown beside a figure. */
export function unitLabel(word: string): string {
  return SHOWN[word] ?? word;
}

/** The base value of digits as typed. */
export function toBase(digits: string, unit: string): number {
  return Number(digits) * UNITS[unit]!.factor;
}
