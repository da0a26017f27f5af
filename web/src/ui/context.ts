/** What the screens are given: made in the composition root, handed down, found by hooks. */
import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { App } from "@/services/app";
import type { UserServices } from "@/services/user";
import type { Router } from "./router";

export interface Given {
  readonly app: App;
  readonly router: Router;
  /** How this device is called in sentences. */
  readonly device: "phone" | "computer";
}

export const GivenContext = createContext<Given | null>(null);

export function useGiven(): Given {
  const given = useContext(GivenContext);
  if (given === null) throw new Error("The screens are drawn inside the app.");
  return given;
}

/** The services of who is signed in; screens below the sign-in page are drawn only when somebody is. */
export function useUser(): UserServices {
  const user = useGiven().app.user.value;
  if (!user) throw new Error("Nobody is signed in.");
  return user;
}
