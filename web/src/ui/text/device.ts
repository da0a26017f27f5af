/** Words of this device: what waits, what is kept, signing out. */
export const words = {
  title: (kind: string) => `This ${kind}`,
  who: "Signed in as",
  waiting: "Waiting to be sent",
  synced: "Last synced",
  never: "never",
  keeping: "Kept by the browser",
  keepingWords: {
    "not asked": "not yet: asked when an entry is saved",
    kept: "yes",
    "may be cleared": "may be cleared when it is short of space: sync often",
  },
  clock: (minutes: number) =>
    `The clock here is ${Math.abs(minutes)} min ${minutes > 0 ? "ahead of" : "behind"} the server's. Entries keep their order all the same.`,
  syncNow: "Send and fetch now",
  attention: "Needs attention",
  attentionWhy: "The server refused these. They stay here, as typed, until you mend them or give them up.",
  gone: "This vehicle is no longer shared with you.",
  becauseOf: "It builds on an entry that was refused.",
  export: "Save what was not sent as a file",
  giveUp: "Give this entry up",
  sure: "Give it up? It is then gone from this device, and was never sent.",
  giveUpYes: "Give it up",
  giveUpNo: "Keep it",
  install: "Put Tareway on the home screen",
  signOut: "Sign out",
  signOutWhy: "Signing out removes everything of yours from this device.",
  signOutUnsent: (count: number) =>
    count === 1
      ? "1 entry has not been sent and would be lost. Send it first, or save it as a file."
      : `${count} entries have not been sent and would be lost. Send them first, or save them as a file.`,
  signOutYes: "Sign out and remove",
  signOutNo: "Stay",
  unreachable: "Signing out needs the server, which cannot be reached now. Nothing has changed.",
};
