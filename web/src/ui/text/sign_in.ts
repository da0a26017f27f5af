/** Words of signing in. */
export const words = {
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
