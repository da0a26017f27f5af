/** Where the device believes to be, asked only on a touch; null where it may not or cannot say. */
export interface Position {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly accuracy_m: number;
}

export function position(): Promise<Position | null> {
  return new Promise((done) => {
    const found = ({ coords: { latitude, longitude, accuracy } }: GeolocationPosition) =>
      done({ latitude_deg: latitude, longitude_deg: longitude, accuracy_m: accuracy });
    if (!("geolocation" in navigator)) return done(null);
    return navigator.geolocation.getCurrentPosition(found, () => done(null), {
      enableHighAccuracy: true,
      timeout: 30_000,
    });
  });
}
