/** Words of the frame. */
export const words = {
  nowhere: "Nothing here",
  nowhereWhy: "There is no such page, or this device does not have that vehicle.",
  notYetHere: "Not on this phone yet",
  notYetHereWhy: "This page had no time to arrive. Open it once with signal, and it stays.",
  broken: "This page has failed",
  brokenWhy:
    "It is a mistake in the app. Nothing that was saved is lost, and what was typed is kept as a draft.",
  home: "To the vehicles",
  offered: "A new version is ready. Entries and half-typed forms stay.",
  take: "Use it now",
  later: "Later",
  blocked: "Close the other tabs of Tareway: they hold an older version of what is stored here.",
  stale: "A newer version is open in another tab. This page changes to it when you go on.",
};
