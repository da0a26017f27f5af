/** A page of the desk whose file has not been fetched before the signal went. */
import type { JSX } from "preact";
import { words } from "@/ui/text/app";
import { Screen } from "./screen";

export function NotYetHere(): JSX.Element {
  return (
    <Screen title={words.notYetHere} back="/" narrow>
      <p>{words.notYetHereWhy}</p>
    </Screen>
  );
}
