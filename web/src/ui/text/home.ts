/** Words of the list of vehicles and of a new one. */
export const home = {
  desk: "Planned against weighed, all vehicles",
  title: "Vehicles",
  role: { owner: "", co_driver: "as co-driver", fitter: "as fitter" },
  pending: "not sent yet",
  fresh: "New vehicle",
  empty: "No vehicle yet.",
  emptyWhat:
    "Three figures off a public weighbridge tell whether each axle is under its rating. A name is enough to begin; the ratings are on the plate in the door frame or under the bonnet.",
  device: (kind: string) => `This ${kind}, sign out`,
  shared: "A workshop or a co-driver can share theirs with you by your sign-in name.",
};

export const newVehicle = {
  title: "New vehicle",
  name: "What do you call it?",
  ratings: "Ratings on its plate",
  ratingsHint: "Leave blank what you cannot read now: a blank is not known, never no limit.",
  gross_kg: "Gross",
  front_axle_kg: "Front axle",
  rear_axle_kg: "Rear axle",
  make: "Make this vehicle",
  needName: "Give it a name; it can be changed later.",
  look: "Something is still to be put right below.",
  odd: (gross: string, axles: string) =>
    `Gross is ${gross}, but both axles together are only rated for ${axles}. Look at the plate again, or go on if that is what it says.`,
  anyway: "That is what it says: make it",
};
