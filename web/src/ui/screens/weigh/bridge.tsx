/** Which bridge it was: one that this phone knows, in one touch, or a new one with what its plate says. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { type BridgeFacts, bridgeNamed, bridgesSeen, type SeenBridge } from "@/services/bridges";
import { ChoiceField, NumberField, TextField, type TypedNumber } from "@/ui/parts/forms";
import { useWatched } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { kg } from "@/ui/text/figures";
import { words } from "@/ui/text/weigh";
import { readTyped } from "@/units/typed";

export interface BridgeProps {
  readonly bridge: BridgeFacts;
  readonly guessed_kg: number;
  readonly onBridge: (bridge: BridgeFacts) => void;
}

const STEPS = [5, 10, 20, 50];
const MOST_OFFERED = 4;

export function BridgeFields({ bridge, guessed_kg, onBridge }: BridgeProps): JSX.Element {
  const [more, setMore] = useState(false);
  const seen = useSeen();
  const put = (change: Partial<BridgeFacts>) => onBridge({ ...bridge, ...change });
  const typed = (name: string) => {
    const known = bridgeNamed(name, seen);
    onBridge(known ? taken(known) : { ...bridge, name });
  };
  const chosen = bridge.interval_kg ?? guessed_kg;
  const steps = STEPS.includes(chosen) ? STEPS : [...STEPS, chosen].sort((a, b) => a - b);
  return (
    <>
      {seen.length > 0 ? (
        <ChoiceField
          label={words.state.whichBridge}
          value={bridgeNamed(bridge.name, seen)?.key ?? ""}
          options={seen.slice(0, MOST_OFFERED).map(({ key, name }) => ({ value: key, label: name || key }))}
          onChange={(key) => {
            const known = seen.find((one) => one.key === key);
            if (known) onBridge(taken(known));
          }}
        />
      ) : null}
      <TextField label={words.state.name} value={bridge.name} onChange={typed} />
      <ChoiceField
        label={words.state.interval}
        value={String(chosen)}
        options={steps.map((step) => ({ value: String(step), label: `${step} kg` }))}
        onChange={(step) => put({ interval_kg: Number(step) })}
        hint={
          bridge.interval_kg !== null && guessed_kg < bridge.interval_kg
            ? words.state.finer(kg(guessed_kg), kg(bridge.interval_kg))
            : words.state.intervalHint
        }
      />
      {more ? (
        <MoreFields bridge={bridge} put={put} />
      ) : (
        <Row label={words.state.moreBridge} figure={summary(bridge)} onTouch={() => setMore(true)} />
      )}
    </>
  );
}

/** The bridges seen on this phone; none while they are read. */
export function useSeen(): readonly SeenBridge[] {
  return useWatched((user) => user.watch(bridgesSeen), []) ?? [];
}

/** A known bridge as this weighing keeps it. */
export function taken({ key: _key, book: _book, at: _at, ...facts }: SeenBridge): BridgeFacts {
  return facts;
}

interface MoreProps {
  readonly bridge: BridgeFacts;
  readonly put: (change: Partial<BridgeFacts>) => void;
}

function MoreFields({ bridge, put }: MoreProps): JSX.Element {
  return (
    <>
      <ChoiceField
        label={words.state.form}
        value={bridge.form ?? "single_deck"}
        options={words.state.forms.map(([value, label]) => ({ value, label }))}
        onChange={(form) => put({ form })}
      />
      <ChoiceField
        label={words.state.class}
        hint={words.state.classHint}
        value={bridge.accuracy_class ?? "III"}
        options={words.state.classes.map(([value, label]) => ({ value, label }))}
        onChange={(accuracy_class) =>
          put({ accuracy_class, percent: accuracy_class === "percent" ? (bridge.percent ?? 1) : null })
        }
      />
      {bridge.accuracy_class === "percent" ? (
        <Figure
          label={words.state.percent}
          value={bridge.percent ?? null}
          range={{ dimension: "fraction", low: 0.01, high: 20 }}
          onChange={(percent) => put({ percent })}
        />
      ) : (
        <Figure
          label={words.state.max}
          value={bridge.max_kg ?? null}
          range={{ dimension: "mass", low: 100, high: 200_000 }}
          onChange={(max_kg) => put({ max_kg })}
        />
      )}
    </>
  );
}

interface FigureProps {
  readonly label: string;
  readonly value: number | null;
  readonly range: { readonly dimension: "mass" | "fraction"; readonly low: number; readonly high: number };
  readonly onChange: (value: number | null) => void;
}

/** A figure that follows what is typed as soon as it can be read; what cannot stays in the field, and says why. */
function Figure({ label, value, range, onChange }: FigureProps): JSX.Element {
  const unit = range.dimension === "mass" ? "kg" : "1";
  const [typed, setTyped] = useState<TypedNumber>({ text: value === null ? "" : String(value), unit });
  const read = readTyped(typed, { ...range, name: label });
  return (
    <NumberField
      label={label}
      value={typed}
      units={range.dimension === "mass" ? ["kg", "t", "lb"] : []}
      onChange={(next) => {
        setTyped(next);
        const found = readTyped(next, { ...range, name: label });
        if (found.kind === "ok") onChange(found.base);
        else if (found.kind === "blank") onChange(null);
      }}
      error={read.kind === "wrong" ? read.message : null}
    />
  );
}

function summary({ accuracy_class, percent, max_kg }: BridgeFacts): string {
  if (accuracy_class === "percent") return words.state.percentOf(percent ?? 1);
  return words.state.classOf(accuracy_class ?? "III", kg(max_kg ?? ASSUMED_MAX_KG));
}

const ASSUMED_MAX_KG = 60_000; // what the calculation takes where it is blank (common practice, no source)
