/** Words of the odometer measured. */
import { km } from "./figures";

export const words = {
  title: "Measure the odometer",
  why: "Drive 100 km or more past road posts, or with a recorded track, and type both distances.",
  indicated: "The odometer counted",
  real: "The true distance",
  how: "How is the true distance known?",
  hows: { posts: "Road posts", track: "Recorded track" },
  winding: "A track cuts the corners of a winding road and reads short: take a straight one.",
  apart: (true_km: string, indicated_km: number) =>
    `The true distance: ${true_km} is not possible, it must be ${km(indicated_km / 2)} to ${km(2 * indicated_km)} (half to twice what the odometer counted).`,
  found: (factor: string) => `True km per km on the odometer: ${factor}.`,
  has: (factor: number | null) =>
    factor === null ? "So far it counts as 1." : `So far it counts as ${factor}.`,
  fromNow: "Take it from now on: something was changed",
  allAlong: "Take it for the whole log: it was so all along",
  taken: "Kept on this phone.",
  ownersOnly: "An owner or a fitter can put it into the vehicle.",
};
