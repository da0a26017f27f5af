/** Which bridge it was: one of those seen in one touch, or a new one by name; and what is known of it. */
import type { JSX } from "preact";
import type { SeenBridge } from "@/services/bridges";
import { ChoiceField, TextField } from "@/ui/parts/forms";
import { step, words } from "@/ui/text/bridge";
import {
  type BridgeFacts,
  factsOf,
  formOf,
  named,
  noBridge,
  type ReadFacts,
  readFacts,
} from "./bridge_facts";
import { MoreBridge } from "./more_bridge";
import type { Layout } from "./standing";
import type { Visit } from "./visit";
import "./which_bridge.css";

export interface WhichBridgeProps {
  readonly visit: Visit;
  readonly bridge: BridgeFacts;
  readonly seen: readonly SeenBridge[];
  /** Saving was tried, and something here cannot be read. */
  readonly refused: boolean;
  readonly onBridge: (bridge: BridgeFacts, layout?: Partial<Layout>) => void;
}

export function WhichBridge(props: WhichBridgeProps): JSX.Element {
  const { visit, bridge, seen, refused, onBridge } = props;
  const read = readFacts(bridge, visit.form, visit.readings);
  const name = (text: string) => {
    const next = named(bridge, text, seen);
    onBridge(next, next.known === bridge.known ? {} : layoutOf(next, seen));
  };
  return (
    <>
      <Chips {...props} />
      <TextField label={words.name} value={bridge.name} onChange={name} />
      <Interval bridge={bridge} read={read} onBridge={onBridge} />
      <MoreBridge {...{ visit, bridge, errors: read.errors, refused, onBridge }} />
    </>
  );
}

const MOST_CHIPS = 4; // more would hide the fields below them

function Chips({ bridge, seen, onBridge }: WhichBridgeProps): JSX.Element | null {
  if (seen.length === 0) return null;
  const shown = seen.filter(({ key }, k) => k < MOST_CHIPS || key === bridge.known);
  const choose = (key: string) => {
    const found = seen.find((one) => one.key === key);
    const next = found ? factsOf(found) : noBridge;
    onBridge(next, layoutOf(next, seen));
  };
  return (
    <div class="bridges">
      <ChoiceField
        label={words.which}
        value={bridge.known ?? NEW}
        options={[...shown.map(chipOf), { value: NEW, label: words.other }]}
        onChange={choose}
      />
    </div>
  );
}

const NEW = "";

function chipOf({ key, body }: SeenBridge): { value: string; label: string } {
  const name: string = body.name || body.site_number || key;
  return { value: key, label: body.interval_kg == null ? name : words.chip(name, body.interval_kg) };
}

/** How a known bridge is laid out comes with it; of a new one nothing is known but how it was read. */
function layoutOf({ known }: BridgeFacts, seen: readonly SeenBridge[]): Partial<Layout> {
  const found = seen.find((one) => one.key === known);
  return found ? { form: formOf(found) } : {};
}

const STEPS = [5, 10, 20, 50];

interface IntervalProps {
  readonly bridge: BridgeFacts;
  readonly read: ReadFacts;
  readonly onBridge: (bridge: BridgeFacts) => void;
}

function Interval({ bridge, read, onBridge }: IntervalProps): JSX.Element {
  const steps = [...new Set([...STEPS, read.interval_kg])].sort((a, b) => a - b);
  const before_kg = bridge.interval_kg;
  return (
    <>
      <ChoiceField
        label={words.interval}
        value={String(read.interval_kg)}
        options={steps.map((one) => ({ value: String(one), label: step(one) }))}
        onChange={(one) => onBridge({ ...bridge, interval_kg: Number(one), by_hand: true })}
      />
      {read.steps_by_kg !== null && before_kg !== null ? (
        <p class="hint" role="status">
          {words.otherSteps(read.steps_by_kg, before_kg)}
        </p>
      ) : null}
    </>
  );
}
