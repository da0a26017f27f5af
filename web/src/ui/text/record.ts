/** Words of a record's form, and of the edits that come of it. */
export const words = {
  keeping: {
    stated: {
      kept: "Kept aboard: you say so. It is never proposed to leave or move it.",
      open: "Not kept aboard: you say so. It may be proposed, whatever its name says.",
    },
    name: {
      kept: "Kept aboard: its name says that it helps in an emergency. Say no to let it be proposed.",
      open: "",
    },
    open: {
      kept: "",
      open: "Not kept aboard: its name does not say that it helps in an emergency.",
    },
  },
  notYet: "Counts once it is not kept aboard.",
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
  undo: (label: string) => `Undo ${label}`,
  redo: (label: string) => `Redo ${label}`,
  changedSince: (label: string) => `Left as it is: somebody has changed it since (${label}).`,
};
