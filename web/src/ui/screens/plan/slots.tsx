/** Places that an item may move to: each with a name, its metres, and what it is on. */
import type { JSX } from "preact";
import { ChoiceField, NumberField, TextField } from "@/ui/parts/forms";
import type { BookView } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { words } from "@/ui/text/record";
import { unitsOf } from "@/units/units";
import type { SlotForm } from "./form";
import { ON, optionsOf } from "./on";
import { FROM } from "./spec";
import "./plan.css";

interface Props {
  readonly view: BookView;
  readonly label: string;
  readonly error: string | null;
  readonly hint?: string;
  readonly value: readonly SlotForm[];
  readonly onChange: (value: readonly SlotForm[]) => void;
}

const MOST = 12;
const NEW: SlotForm = { label: "", x: { text: "", unit: "m" }, on: "", rest: {} };

export function Slots({ view, label, error, hint, value, onChange }: Props): JSX.Element {
  const options = optionsOf(ON, view.book).map(([one, text]) => ({ value: one, label: text }));
  const put = (at: number, change: Partial<SlotForm>) =>
    onChange(value.map((one, k) => (k === at ? { ...one, ...change } : one)));
  return (
    <fieldset class="plan-slots">
      <legend class="field-label">{label}</legend>
      {hint ? <span class="field-hint">{hint}</span> : null}
      {value.map(({ label: name, x, on }, k) => (
        <div key={k} class="plan-in-place">
          <TextField
            label={words.slotName(k + 1)}
            value={name}
            onChange={(text) => put(k, { label: text.slice(0, 40) })}
          />
          <NumberField
            label={words.slotPlace(k + 1)}
            value={x}
            units={unitsOf("length")}
            hint={on === "" || on === "roof" ? FROM.axle : FROM.coupling}
            onChange={(next) => put(k, { x: next })}
          />
          <ChoiceField
            label={words.onWhat}
            value={on}
            options={options}
            onChange={(next) => put(k, { on: next })}
          />
          <Row label={words.slotOut(k + 1)} onTouch={() => onChange(value.filter((_, at) => at !== k))} />
        </div>
      ))}
      {error ? <span class="field-error">{error}</span> : null}
      {value.length < MOST ? <Row label={words.slotAdd} onTouch={() => onChange([...value, NEW])} /> : null}
    </fieldset>
  );
}
