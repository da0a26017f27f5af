/** Distances on the WGS 84 ellipsoid, and where along a track a place lies. */
import { checkRange, NotKnown } from "./errors";

/** WGS 84: semi-major axis and flattening (NIMA TR8350.2, from memory). */
export const AXIS_KM = 6378.137;
export const FLATTENING = 1 / 298.257223563;

/** A place by its geodetic latitude and longitude, degrees. */
export interface Spot {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
}

/** Where along a track a place lies, and how far from it. */
export interface Beside {
  readonly at_km: number;
  readonly off_km: number;
}

export interface BetweenKm {
  readonly start: Spot;
  readonly end: Spot;
}

/** Length of the geodesic between two places, km: Lambert's formula for long lines (1942). */
export function betweenKm({ start, end }: BetweenKm): number {
  for (const { latitude_deg, longitude_deg } of [start, end]) {
    checkRange("latitude_deg", latitude_deg, { low: -90, high: 90, unit: "deg" });
    checkRange("longitude_deg", longitude_deg, { low: -180, high: 180, unit: "deg" });
  }
  const [b1, b2] = [reduced(start.latitude_deg), reduced(end.latitude_deg)];
  const across = radians(end.longitude_deg - start.longitude_deg) / 2;
  const half = Math.sin((b2 - b1) / 2) ** 2 + Math.cos(b1) * Math.cos(b2) * Math.sin(across) ** 2;
  if (half === 0) return 0;
  const s = 2 * Math.atan2(Math.sqrt(half), Math.sqrt(Math.max(1 - half, 0)));
  const [p, q] = [(b1 + b2) / 2, (b2 - b1) / 2];
  const x = ((s - Math.sin(s)) * (Math.sin(p) * Math.cos(q)) ** 2) / Math.max(1 - half, 1e-300);
  const y = ((s + Math.sin(s)) * (Math.cos(p) * Math.sin(q)) ** 2) / half;
  return AXIS_KM * (s - (FLATTENING / 2) * (x + y));
}

export interface Track {
  readonly spots: readonly Spot[];
}

/** Kilometres along a track at each of its points, 0 at the first; none of an empty one. */
export function trackKm({ spots }: Track): number[] {
  let done = 0;
  return spots.map((end, n) => {
    if (n > 0) done += betweenKm({ start: spots[n - 1]!, end });
    return done;
  });
}

export interface BesideTrack extends Track {
  readonly spot: Spot;
}

/** The point of a track that is nearest to a place: how far along it is, and how far off the place lies. */
export function besideTrack({ spots, spot }: BesideTrack): Beside {
  if (spots.length === 0) throw new NotKnown("spots", "a track");
  const kms = trackKm({ spots });
  const scale = Math.cos(radians(spot.latitude_deg));
  const plane = ({ latitude_deg, longitude_deg }: Spot) => {
    const turned = ((longitude_deg - spot.longitude_deg + 540) % 360) - 180;
    return [turned * scale, latitude_deg - spot.latitude_deg] as const;
  };
  let [n, share, least] = [0, 0, Math.hypot(...plane(spots[0]!))];
  for (let k = 0; k + 1 < spots.length; k++) {
    const [[x, y], [u, v]] = [plane(spots[k]!), plane(spots[k + 1]!)];
    const square = (u - x) ** 2 + (v - y) ** 2;
    const part = square > 0 ? Math.min(Math.max(-(x * (u - x) + y * (v - y)) / square, 0), 1) : 0;
    const off = Math.hypot(x + part * (u - x), y + part * (v - y));
    if (off < least) [n, share, least] = [k, part, off];
  }
  const at_km = share === 0 ? kms[n]! : kms[n]! + share * (kms[n + 1]! - kms[n]!);
  return { at_km, off_km: (AXIS_KM * least * Math.PI) / 180 };
}

function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}

/** Reduced latitude; at a pole the pole. */
function reduced(latitude_deg: number): number {
  if (Math.abs(latitude_deg) === 90) return radians(latitude_deg);
  return Math.atan((1 - FLATTENING) * Math.tan(radians(latitude_deg)));
}
