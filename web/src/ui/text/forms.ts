/** Words of the form controls and the page frame. */
export const words = {
  yes: "Yes",
  no: "No",
  back: "Back",
  didYouMean: "Did you mean",
  unitOf: (label: string) => `Unit of ${label}`,
  notSaved: (why: string) => `Not saved: ${why}`,
};

const FAULTS: Readonly<Record<string, string>> = {
  full: "this device has no room left. Free some, then touch it again; what you typed is still here.",
  closed: "the browser closed its storage. Touch it again; what you typed is still here.",
  newer: "a newer version of Tareway is open in another tab. Load this page again.",
  failed: "the browser's storage failed. Touch it again; what you typed is still here.",
};

/** Why something could not be saved; the storage names its faults. */
export function whyNot(error: unknown): string {
  const fault = (error as { readonly fault?: string } | null)?.fault;
  return FAULTS[fault ?? ""] ?? (error instanceof Error ? error.message : String(error));
}
