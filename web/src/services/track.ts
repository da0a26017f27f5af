/** A track's points as a leg with the supplies beside it. */
import { type Beside, besideTrack, type Spot, trackKm } from "../domain/geo";

export type { Spot };

export interface Track {
  readonly name: string;
  readonly spots: readonly Spot[];
}

export interface Place extends Spot {
  readonly name: string;
}

export interface Taken {
  readonly legs: readonly { readonly name: string; readonly km: number }[];
  /** Those near the way, by where they lie along it. */
  readonly places: readonly (Place & Beside)[];
}

/** Further from the way than this a place is none of its supplies (assumed). */
const NEAR_KM = 5;

/** Tracks one after the other as legs, and the places along all of them. */
export function legsOf(tracks: readonly Track[], places: readonly Place[]): Taken {
  const legs = tracks.map(({ name, spots }) => ({ name, km: trackKm({ spots }).at(-1) ?? 0 }));
  const spots = tracks.flatMap((track) => track.spots);
  const found =
    spots.length > 0 ? places.map((place) => ({ ...place, ...besideTrack({ spots, spot: place }) })) : [];
  return {
    legs: legs.filter((leg) => leg.km > 0),
    places: found.filter((one) => one.off_km <= NEAR_KM).sort((a, b) => a.at_km - b.at_km),
  };
}
