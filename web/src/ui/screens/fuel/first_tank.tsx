/** Before the first fill or dip: how much does the tank hold? One figure, then the log can begin. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { Action, Actions } from "@/ui/parts/action";
import { NumberField } from "@/ui/parts/forms";
import type { BookView, Services } from "@/ui/parts/live";
import { Screen } from "@/ui/parts/screen";
import { words } from "@/ui/text/fuel";
import { readTyped, type TypedNumber } from "@/units/typed";

interface Props {
  readonly view: BookView;
  readonly holds: "fuel" | "water";
  readonly litres: TypedNumber;
  readonly onChange: (value: TypedNumber) => void;
  readonly add: Services["records"]["add"];
}

export function FirstTank({ view, holds, litres, onChange, add }: Props): JSX.Element {
  const [error, setError] = useState<string | null>(null);
  const name = words.tankNames[holds];
  const save = async () => {
    const read = readTyped(litres, { dimension: "volume", low: 0.1, high: 5_000, name: words.capacity });
    if (read.kind === "ok") {
      await add(view.id, "tank", {
        name,
        holds,
        capacity_l: read.base,
        as_typed: { capacity_l: read.as_typed },
      });
    } else setError(read.kind === "wrong" ? read.message : words.needCapacity);
  };
  return (
    <Screen title={view.name} back={`/b/${view.id}`} narrow>
      <p>{words.noTank[holds]}</p>
      <NumberField
        label={words.capacity}
        value={litres}
        units={["L", "gal_us", "gal_imp"]}
        onChange={onChange}
        error={error}
        autofocus
      />
      <p class="hint">{words.capacityHint}</p>
      <Actions>
        <Action label={words.addTank} onTouch={save} />
      </Actions>
    </Screen>
  );
}
