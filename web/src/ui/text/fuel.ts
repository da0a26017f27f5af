/** Words at the bowser. */
const SURFACES: Readonly<Record<string, string>> = {
  sealed: "Sealed",
  gravel: "Gravel",
  sand: "Sand",
  mixed: "Mixed",
};

export const words = {
  title: "Fuel",
  noLog: "Nothing logged yet. The first full tank starts the log.",
  odometer: "Odometer",
  lastOdometer: (figure: string) => `Last entry ${figure} km`,
  litres: "Litres",
  litresInto: (tank: string) => `Litres into ${tank}`,
  full: "Full to the click?",
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
  oneMissing: "No, one is missing",
  save: "Save this fill",
  saveAnyway: "Save it all the same",
  saved: "Saved on this phone.",
  toLog: "All entries",
  needFull: "Full to the click, or part? Touch one.",
  needLitres: "How many litres went in?",
  wrongShares: "Type the kilometres of each surface; at least one must be more than 0.",
  ask: (labels: readonly string[]) => `Did you mean ${labels.join(" or ")}? Type it without separators.`,
  backwards: (last: number) =>
    `The odometer is below the last entry (${last} km). If this fill is older, save it all the same: it takes its place by the odometer.`,
  far: (distance: number) =>
    `That is ${Math.round(distance)} km since the last entry. Is a digit wrong, or a fill missing?`,
  over: (tank: string, capacity: number) =>
    `That is more than ${tank} holds (${capacity} L). Is the figure right?`,
  countOn: (figure: string) => `Count on ${figure}`,
  likely: (figure: string) => `likely ${figure}`,
  likelyOn: (figure: string, surface: string) => `likely ${figure}, if ${surface.toLowerCase()} ahead`,
  countOnRow: "Count on",
  onward: "From here on",
  ahead: "Surface ahead",
  nextSupply: "Next certain fuel is at",
  reach: (p: number) =>
    p >= 0.95
      ? `Reached, counting on it (${percent(p)}).`
      : p >= 0.5
        ? `Likely reached (${percent(p)}), but do not count on it.`
        : `Likely not reached (${percent(p)}).`,
  restsOn: "What this rests on",
  left: "In the tanks",
  sinceFull: "Between the last two full tanks",
  fulls: (count: number) =>
    count === 0 ? "prior only" : count === 1 ? "1 full tank" : `${count} full tanks`,
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

function percent(p: number): string {
  if (p > 0.99) return "more than 99 %";
  if (p < 0.01) return "less than 1 %";
  return `${Math.round(p * 100)} %`;
}
