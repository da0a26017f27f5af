/** Words of a record's form, and of the edits that come of it. */
export const words = {
  onWhat: "On what",
  onVehicle: "Vehicle",
  onRoof: "Roof",
  none: "Nobody",
  runsOut: "Into none",
  noGrey: "No grey tank in the plan yet: add one, and this tank can run into it.",
  slotName: (k: number) => `Place ${k}: what you call it`,
  slotPlace: (k: number) => `Place ${k}: metres`,
  slotOut: (k: number) => `Take place ${k} out`,
  slotAdd: "Add a place",
  needSlotPlace: (k: number) => `Place ${k} needs its metres, or take it out.`,
  needName: "It needs a name.",
  needChoice: "Choose one.",
  ask: (labels: readonly string[]) => `Did you mean ${labels.join(" or ")}?`,
  wrongCount: (label: string, text: string, low: number, high: number) =>
    `${label}: ${text} is not a whole number from ${low} to ${high}.`,
  added: "added",
  takenOut: "taken out",
  edited: (name: string, what: string) => `${name}: ${what}`,
  changedSince: (label: string) => `Not undone: somebody has changed it since (${label}).`,
};
