/** Where on a route a place of known coordinates is. */
import type { Body } from "./book";
import { type Beside, besideTrack, type Spot, trackKm } from "./geo";
import { suppliesOf } from "./itinerary";

export interface AlongRoute {
  readonly route: Body;
  readonly spot: Spot;
}

/** About how far along a route a place is, and how far beside it, by the supplies whose coordinates are known; null without any. */
export function alongRoute({ route, spot }: AlongRoute): Beside | null {
  const placed = suppliesOf({ route })
    .filter((one) => one.latitude_deg != null && one.longitude_deg != null)
    .sort((a, b) => a.at_km - b.at_km);
  if (placed.length === 0) return null;
  const spots = placed.map(({ latitude_deg, longitude_deg }) => ({ latitude_deg, longitude_deg }));
  const found = besideTrack({ spots, spot });
  const kms = trackKm({ spots });
  for (const [n, one] of placed.slice(0, -1).entries()) {
    const [a, b] = [kms[n]!, kms[n + 1]!];
    if (found.at_km > b) continue;
    const share = b > a ? (found.at_km - a) / (b - a) : 0;
    return { at_km: one.at_km + share * (placed[n + 1]!.at_km - one.at_km), off_km: found.off_km };
  }
  return { at_km: placed.at(-1)!.at_km, off_km: found.off_km };
}
