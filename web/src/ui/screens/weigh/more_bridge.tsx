/** What else a scale's plate says, folded away: its form, class, Max and display; blanks take the usual bridge. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { ChoiceField, NumberField, TextField, YesNo } from "@/ui/parts/forms";
import { Row } from "@/ui/parts/row";
import { bridgeTold, words } from "@/ui/text/bridge";
import type { AccuracyClass, BridgeFacts, Errors } from "./bridge_facts";
import type { Layout, ScaleForm } from "./standing";
import type { Visit } from "./visit";

export interface MoreBridgeProps {
  readonly visit: Visit;
  readonly bridge: BridgeFacts;
  readonly errors: Errors;
  /** Saving was tried: what is wrong is shown even when it was folded away. */
  readonly refused: boolean;
  readonly onBridge: (bridge: BridgeFacts, layout?: Partial<Layout>) => void;
}

const FORMS: readonly ScaleForm[] = ["single_deck", "multi_deck", "pads"];
const CLASSES: readonly AccuracyClass[] = ["III", "IIII", "percent"];

export function MoreBridge(props: MoreBridgeProps): JSX.Element {
  const [open, setOpen] = useState(false);
  const { visit, bridge, errors, refused } = props;
  const wrong = Object.values(errors)[0];
  return (
    <>
      <Row
        label={words.more}
        note={wrong ?? bridgeTold(told(visit, bridge))}
        onTouch={() => setOpen(!open)}
      />
      {open || (refused && wrong) ? <Facts {...props} /> : null}
    </>
  );
}

function told({ form }: Visit, { accuracy_class, percent, max }: BridgeFacts) {
  const max_kg = max.text.trim() ? `${max.text.trim()} ${max.unit}` : null;
  return { form, accuracy_class, percent: percent.text.trim() || null, max: max_kg };
}

function Facts({ visit, bridge, errors, onBridge }: MoreBridgeProps): JSX.Element {
  const put = (change: Partial<BridgeFacts>) => onBridge({ ...bridge, ...change });
  return (
    <>
      <ChoiceField
        label={words.form}
        value={visit.form}
        options={FORMS.map((value) => ({ value, label: words.forms(value) }))}
        onChange={(form) => onBridge(bridge, { form: form as ScaleForm })}
      />
      {visit.form === "pads" ? (
        <YesNo
          question={words.onePad}
          value={visit.one_pad}
          onChange={(one_pad) => onBridge(bridge, { one_pad })}
        />
      ) : null}
      <ChoiceField
        label={words.accuracy}
        hint={words.accuracyHint}
        value={bridge.accuracy_class ?? "III"}
        options={CLASSES.map((value) => ({ value, label: words.classes(value) }))}
        onChange={(value) => put({ accuracy_class: value as AccuracyClass })}
        error={errors.accuracy_class ?? null}
      />
      {bridge.accuracy_class === "percent" ? (
        <NumberField
          label={words.percent}
          hint={words.percentHint}
          value={bridge.percent}
          onChange={(percent) => put({ percent })}
          error={errors.percent ?? null}
        />
      ) : null}
      <NumberField
        label={words.max}
        hint={words.maxHint}
        value={bridge.max}
        units={["t", "kg"]}
        onChange={(max) => put({ max })}
        error={errors.max ?? null}
      />
      <NumberField
        label={words.displayed}
        value={bridge.displayed}
        units={["kg", "lb"]}
        onChange={(displayed) => put({ displayed })}
        error={errors.displayed ?? null}
      />
      <TextField
        label={words.site}
        value={bridge.site_number}
        onChange={(site_number) => put({ site_number })}
      />
    </>
  );
}
