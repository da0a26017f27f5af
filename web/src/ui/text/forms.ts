/** Words of the form controls and the page frame. */
export const words = {
  yes: "Yes",
  no: "No",
  back: "Back",
  didYouMean: "Did you mean",
  unitOf: (label: string) => `Unit of ${label}`,
  notSaved: (why: string) => `Not saved: ${why}`,
};
