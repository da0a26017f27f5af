/** Words of a tank: in its picture, and where its level is read. */
import { figure, litres } from "./figures";

interface Standing {
  readonly litres: number;
  readonly reach: number;
}

/** Whole litres; tenths where there are few of them, or the ± is less than one. */
function standing({ litres: held, reach }: Standing): string {
  const digits = held < 10 || (reach > 0 && reach < 0.95) ? 1 : 0;
  return reach > 0 ? `${litres(held, digits)} ±\u00a0${figure(reach, digits)}` : litres(held, digits);
}

function capacity(whole_l: number): string {
  return litres(whole_l, whole_l % 1 === 0 ? 0 : 1);
}

/** Main tank: 62 L ± 5 of 80 L. */
export function tankTold(
  name: string,
  capacity_l: number | null,
  level: { readonly share: number; readonly reach: number } | null,
): string {
  if (capacity_l === null) return words.noCapacity(name);
  if (level === null) return words.notKnown(name, capacity(capacity_l));
  const held = standing({ litres: level.share * capacity_l, reach: level.reach * capacity_l });
  return words.holds(name, held, capacity(capacity_l));
}

export const words = {
  standing,
  capacity,
  holds: (name: string, held: string, of: string) => `${name}: ${held} of ${of}`,
  notKnown: (name: string, of: string) => `${name}, ${of}: level not known`,
  noCapacity: (name: string) => `${name}: capacity not known`,
  fromLog: ", from the log",
  fromLogSince: ", from the log; its ± allows for what was used since the last entry",
  assumed: "(its size as drawn is assumed)",
  reserve: (held: number) => `reserve ${litres(held, held < 10 && held % 1 !== 0 ? 1 : 0)}`,
  tick: (held: number) => figure(held, held % 1 === 0 ? 0 : 1),
  byLog: "by the log",
  now: "read now",
  reads: (of: Standing, whole_l: number) => `${standing(of)} of ${capacity(whole_l)}`,
  notRead: "nothing read yet",
  title: "Levels",
  which: "Which tank?",
  reading: (name: string) => `${name}: the log is being read`,
  readIt: ". Read it once, and the log goes on from there.",
  slider: (name: string) => `Level read in ${name}`,
  touch: "Touch or drag to where it stands, or use the arrow keys.",
  lamps: "As lamps or a gauge in quarters show it",
  quarters: ["Empty", "1/4", "1/2", "3/4", "Full"],
  amount: "Litres in it, or its share",
  needLevel: "Litres in it, or its share: touch the scale, or type a figure.",
  how: "How was it read?",
  hows: { gauge: "Gauge", stick: "Stick", tube: "Tube", lamps: "Lamps" } as Readonly<Record<string, string>>,
  u: "± of this reading (one standard uncertainty)",
  usual: (u_l: number, share: number, own: boolean) =>
    `Blank: ${litres(u_l, 1)}, ${figure(100 * share, share < 0.1 && (100 * share) % 1 !== 0 ? 1 : 0)} % of the tank (${own ? "this tank's gauge" : "assumed"})`,
  odometer: "Odometer",
  last: (figure: string) => `Last entry ${figure} km. Blank: it sets the level and tells nothing of the rate`,
  mayBeBlank: "May stay blank",
  save: "Save this level",
  needCapacity: (name: string) => `${name}: type its capacity first`,
};
