/** Words at the bowser. */
import type { FuelAnswer } from "@/services/consumption";
import { figure, km, perHundred } from "./figures";

const SURFACES: Readonly<Record<string, string>> = {
  sealed: "Sealed",
  gravel: "Gravel",
  sand: "Sand",
  mixed: "Mixed",
};

export const words = {
  title: "Fuel",
  noLog: "Nothing logged yet. The first full tank starts the log.",
  asked: (count: number) =>
    count === 1
      ? "One entry asks something: below the form."
      : `${count} entries ask something: below the form.`,
  odometer: "Odometer",
  lastOdometer: (figure: string) => `Last entry ${figure} km`,
  litres: "Litres",
  litresInto: (tank: string) => `Litres into ${tank}`,
  full: "Full to the click?",
  fullOf: (tank: string) => `${tank}: full to the click?`,
  fullYes: "Yes, full",
  fullNo: "No, part",
  surface: "Surface since the last entry",
  surfaces: SURFACES as Readonly<Record<string, string>> & {
    sealed: string;
    gravel: string;
    sand: string;
    mixed: string;
  },
  kmOf: (surface: string) => `Of it ${surface.toLowerCase()}`,
  complete: (figure: string) => `Is every fill since ${figure} km here?`,
  completeBefore: "Is every fill before it here?",
  oneMissing: "No, one is missing",
  asTyped: "With the way since the last entry as it stands below, not saved yet.",
  keepSince: "Keep odometer and surface, no fill",
  towing: "Towing since the last entry?",
  more: "Price, or litres without a meter",
  metered: "Did a meter show the litres?",
  about: "No, about",
  price: "Paid",
  currency: "Currency",
  currencyHint: "Its three letters",
  wrongPrice: "Paid: digits such as 123.45, and the currency's three letters.",
  save: "Save this fill",
  saveAnyway: "Save it all the same",
  saved: "Saved on this phone.",
  toLog: "All entries",
  toOdometer: "Measure the odometer",
  toPast: "Consumption over time, and its cost",
  toMoved: "Pour or move fuel",
  toChange: "Tyres, roof load: something has changed",
  late: (odometer: string | null, before: string, after: string) =>
    `Entered late, it took its place${odometer ? ` at ${odometer}` : ""}: the count-on range was ${before}, is ${after}.`,
  needFull: "Full to the click, or part? Touch one.",
  needLitres: "How many litres went in?",
  wrongShares: "Type the kilometres of each surface; at least one must be more than 0.",
  ask: (labels: readonly string[]) => `Did you mean ${labels.join(" or ")}? Type it without separators.`,
  backwards: (last: number) =>
    `The odometer is below the last entry (${last} km). If this fill is older, save it all the same: it takes its place by the odometer.`,
  far: (distance: number) =>
    `That is ${Math.round(distance)} km since the last entry. Is a digit wrong, or a fill missing?`,
  over: (litres: number, tank: string, capacity: number) =>
    `${litres} L into ${tank}, which holds ${capacity} L, cannot be. Saved like this it is held, not lost.`,
  above: (litres: number, tank: string, capacity: number) =>
    `${litres} L is more than ${tank} holds (${capacity} L). Is the figure right, and the capacity?`,
  countOn: (figure: string) => `Count on ${figure}`,
  likely: (figure: string) => `likely ${figure}`,
  likelyOn: (figure: string, surface: string, towing: boolean) =>
    `likely ${figure}, if ${surface.toLowerCase()} ahead${towing ? ", towing" : ""}`,
  rateOf: (surface: string, towing: boolean) => (towing ? `${surface}, towing` : surface),
  towingAhead: "Towing ahead?",
  oneSided: (p: number) => `Counted on with ${figure(100 * p, p > 0.99 ? 2 : 0)} %, one-sided`,
  toDefaults: "What is taken for granted",
  countOnRow: "Count on",
  onward: "From here on",
  ahead: "Surface ahead",
  nextSupply: "Next certain fuel is at",
  reached: (chance: string) => `Reached, counting on it (${chance}).`,
  likelyReached: (chance: string) => `Likely reached (${chance}), but do not count on it.`,
  notReached: (chance: string) => `Likely not reached (${chance}).`,
  withIt: (countOn: string, likely: string) => `With it: count on ${countOn}, likely ${likely}.`,
  rateSince: (rate: string) => `${rate} since the last full tank.`,
  overNow: (ratings: string) => `Not under even now, and each litre makes it worse: ${ratings}.`,
  afterIt: (rating: string, verdict: string) => `With this fill, ${rating}: ${verdict}.`,
  atMost: (litres: string) => `At most ${litres} keep it under.`,
  fullHolds: (tank: string) => `${tank} full: every rating that is known stays under.`,
  firstOver: (litres: string, tank: string, rating: string) =>
    `${litres} more into ${tank}, then the first rating goes over: ${rating}.`,
  firstLifts: (litres: string, tank: string, rating: string) =>
    `${litres} more into ${tank}, then it lifts: ${rating}.`,
  heard: "Other phones",
  phone: (name: string, nth: number | null) => `${name}'s phone${nth === null ? "" : ` ${nth}`}`,
  ownPhone: (nth: number | null) => `Your other phone${nth === null ? "" : ` ${nth}`}`,
  heardAt: (at: string, unsent: number | null) => {
    if (unsent === 0) return `last heard ${at}; what was typed there since is not in these figures`;
    if (unsent === null)
      return `last heard ${at}; what had not come then or was typed there since is not in these figures`;
    const held = unsent === 1 ? "1 entry was" : `${unsent} entries were`;
    return `last heard ${at}, when ${held} still on it; these and what was typed there since are not in these figures`;
  },
  restsOn: "What this rests on",
  left: "In the tanks, at the last entry",
  sinceFull: "Between the last two full tanks",
  fulls: (count: number, km: number) =>
    count > 1
      ? `${count} full tanks`
      : count === 1
        ? "1 full tank"
        : km > 0
          ? `${Math.round(km)} km within other tanks`
          : "prior only",
  reserve: "Reserve not counted on",
  noTank: {
    fuel: "No fuel tank in the plan yet. How much does it hold?",
    water: "No water tank in the plan yet. How much does it hold?",
  },
  tankNames: { fuel: "Main tank", water: "Water tank" },
  capacity: "Capacity",
  capacityHint: "For fuel: what fits from empty to the pump's shut-off.",
  needCapacity: "Type how many litres it holds.",
  addTank: "Add this tank",
};

/** What one changed entry does to the range and to consumption, before it is saved. */
export function effectWords(before: FuelAnswer, after: FuelAnswer): string[] {
  const ahead = (one: FuelAnswer) => `if ${(words.surfaces[one.surface] ?? "").toLowerCase()} ahead`;
  const [was, is] = [km(before.count_on_km), km(after.count_on_km)];
  const same = before.surface === after.surface && before.towing === after.towing;
  const range =
    was === is && same
      ? `Count on ${is}, as before.`
      : `Count on ${is}, ${ahead(after)}, instead of ${was}${same ? "" : `, ${ahead(before)}`}.`;
  const rates = after.rates.flatMap((rate) => {
    const old = before.rates.find((one) => one.surface === rate.surface && one.towing === rate.towing);
    if (!old || Math.abs(old.l_per_100km - rate.l_per_100km) < 0.05) return [];
    const name = words.rateOf(words.surfaces[rate.surface] ?? "", rate.towing);
    return [`${name}: ${perHundred(rate.l_per_100km)} instead of ${perHundred(old.l_per_100km)}.`];
  });
  return [range, ...rates];
}

/** Whether a distance is reached that can be counted on with such a confidence. */
export function reachWords(p: number, confidence: number): string {
  const told = p >= confidence ? words.reached : p >= 0.5 ? words.likelyReached : words.notReached;
  return told(percent(p));
}

/** A chance in words. */
export function percent(p: number): string {
  if (p > 0.99) return "more than 99 %";
  if (p < 0.01) return "less than 1 %";
  return `${Math.round(p * 100)} %`;
}
