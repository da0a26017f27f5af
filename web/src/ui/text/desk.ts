/** Words of the fitter's first page. */
export const words = {
  title: "Planned against weighed",
  intro: "Every vehicle shared with you, by its latest weighing: kg, ± 95 %.",
  empty: "No vehicle is shared with you yet. An owner adds you by your sign-in name.",
  notWeighed: "Not weighed yet.",
  weighedOn: (day: string) => `Weighed on ${day}`,
  noPlan: "No plan yet: nothing to compare with.",
  disagree: "The readings disagree with each other: nothing is compared until one is repeated or set aside.",
  unplanned: (mass: string) => `Unplanned: ${mass}`,
  withinDoubt: (mass: string) => `Unplanned: ${mass}, within the doubt of plan and bridge`,
  full: (row: string, told: string, trailer: string | null) =>
    `All full, all aboard${trailer ? `, ${trailer} on` : ""}: ${row.toLowerCase()} ${told}`,
};
