/** What an item's form says about being left or moved, as it stands: by its record, or by its name. */
import { keptAboard } from "@/services/change";
import { words } from "@/ui/text/record";
import type { Form } from "./form";

/** What holds, by the name of the field that says it. */
export function heldBack({ name, keep_aboard }: Form): Readonly<Record<string, string>> {
  const { kept, why } = keptAboard({ item: { name, keep_aboard } });
  const said = words.keeping[why][kept ? "kept" : "open"];
  return kept
    ? { keep_aboard: said, may_stay_behind: words.notYet, may_move_to: words.notYet }
    : { keep_aboard: said };
}
