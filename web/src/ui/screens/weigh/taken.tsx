/** A reading that was taken: touched, it can be typed anew, set aside with a reason, or counted again. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { ChoiceField } from "@/ui/parts/forms";
import { Row } from "@/ui/parts/row";
import "@/ui/parts/struck.css";
import { kg } from "@/ui/text/figures";
import { words } from "@/ui/text/weigh";
import type { TakenReading } from "./visit";

export interface TakenProps {
  readonly reading: TakenReading;
  /** What stood on the deck, in words. */
  readonly name: string;
  readonly onTakeBack: () => void;
  readonly onStrikeOut: (reason: string | null) => void;
}

const RETYPE = "retype";
const COUNT = "count";

export function Taken({ reading, name, onTakeBack, onStrikeOut }: TakenProps): JSX.Element {
  const [open, setOpen] = useState(false);
  const choose = (what: string) => {
    setOpen(false);
    if (what === RETYPE) onTakeBack();
    else onStrikeOut(what === COUNT ? null : what);
  };
  return (
    <div class={reading.struck_out ? "entry-struck" : ""}>
      <Row
        label={name}
        figure={kg(reading.value_kg)}
        {...(reading.struck_out ? { note: words.aside(reading.struck_out) } : {})}
        onTouch={() => setOpen(!open)}
      />
      {open ? (
        <ChoiceField
          label={words.whatOfIt}
          value=""
          options={
            reading.struck_out
              ? [{ value: COUNT, label: words.countAgain }]
              : [
                  { value: RETYPE, label: words.retype },
                  ...words.reasons.map((reason) => ({ value: reason, label: words.aside(reason) })),
                ]
          }
          onChange={choose}
        />
      ) : null}
    </div>
  );
}
