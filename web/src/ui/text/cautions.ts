/** The cautions that stand under every figure somebody might rely on. */
export const weighing = [
  "These figures support a decision; they certify nothing. Plates, papers and the authority of the place decide.",
  "Being under the gross rating is not being under the axles, the combination and the coupling.",
  "Use a verified weighbridge. Modifications are certified by the competent engineer or authority.",
];
export const range = [
  "Range is an estimate: carry the reserve. Stay with the vehicle if it stops, and tell someone your route.",
];
export const water = [
  "Days of water are an estimate: carry the reserve and do not plan to drink it. Stay with the vehicle if it stops.",
];
