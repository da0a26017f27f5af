/** Words of signing in, of sharing, and of this device. */
export const signIn = {
  title: "Sign in",
  again: (name: string) => `Sign in as ${name}`,
  what: "What your vehicle weighs, how far the fuel goes, how long the water lasts. It works without signal; signing in is needed once.",
  name: "Sign-in name",
  nameHint: "Any name you like, up to 60 letters.",
  password: "Password",
  passwordHint: "8 characters or more; a few words are easiest to keep in mind.",
  next: "Next",
  enter: "Sign in",
  make: "Make this account",
  fresh: "I am new here",
  known: "I have an account",
  needName: "Type a name to sign in with.",
  needPassword: "Type the password.",
  change: "Another name",
  unreachable:
    "The server cannot be reached. Signing in needs it once; entries on this device stay where they are.",
  waits: (name: string, waiting: number) =>
    waiting === 1
      ? `1 entry of ${name} is saved on this device and is sent only when ${name} signs in.`
      : `${waiting} entries of ${name} are saved on this device and are sent only when ${name} signs in.`,
};

export const members = {
  title: "Shared with",
  roles: { owner: "owner", co_driver: "co-driver", fitter: "fitter" },
  what: {
    owner: "sees and changes everything",
    co_driver: "logs weighings, fuel and water",
    fitter: "keeps the plan and weighs; sees no names of people",
  },
  you: "you",
  add: "Share with somebody",
  name: "Sign-in name",
  nameHint: "The person needs an account here already.",
  role: "As",
  share: "Share",
  remove: (name: string) => `Stop sharing with ${name}`,
  sure: (name: string) => `Stop sharing with ${name}? ${name} keeps nothing of this vehicle.`,
  yes: "Stop sharing",
  no: "Keep sharing",
  needName: "Type the sign-in name.",
  unreachable: "This needs the server, which cannot be reached now.",
  notYet: "This vehicle has not reached the server yet; it can be shared once it has.",
  shared: (name: string) => `Shared with ${name}.`,
};

export const device = {
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
