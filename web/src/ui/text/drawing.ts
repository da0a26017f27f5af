/** Words inside the drawings. */
import { kg } from "./figures";

export const words = {
  place: (x_m: number) => `${x_m.toFixed(2)} m`,
  metres: (metres: number) => `${metres} m`,
  kg,
  centre: (x_m: number) => `Centre of gravity ${x_m.toFixed(2)} m behind the front axle`,
  zone: (from_m: number, to_m: number) =>
    `Between ${from_m.toFixed(2)} and ${to_m.toFixed(2)} m behind the front axle`,
};
