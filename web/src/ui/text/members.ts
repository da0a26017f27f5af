/** Words of sharing. */
export const words = {
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
