/** The odometer measured against posts or a track, and what follows: from now on, or for the whole log. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { measuredFactor } from "@/services/odometer";
import { ChoiceField, NumberField } from "@/ui/parts/forms";
import { type BookView, useBook, useDraft } from "@/ui/parts/live";
import { Screen } from "@/ui/parts/screen";
import { TakeFactor } from "@/ui/parts/take_factor";
import { km, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/odometer";
import { readTyped, type TypedNumber } from "@/units/typed";

export default function OdometerScreen({ book: id }: { readonly book: string }): JSX.Element | null {
  const view = useBook(id);
  return view ? <Measure view={view} /> : null;
}

interface Typed {
  readonly indicated: TypedNumber;
  readonly real: TypedNumber;
  readonly how: string;
}

const blank: Typed = { indicated: { text: "", unit: "km" }, real: { text: "", unit: "km" }, how: "posts" };

function Measure({ view }: { readonly view: BookView }): JSX.Element | null {
  const draft = useDraft<Typed>(`odometer:${view.id}`, blank);
  const [touched, setTouched] = useState(false);
  const [taken, setTaken] = useState(false);
  if (!draft.ready) return null;
  const { indicated, real, how } = draft.value;
  const put = (change: Partial<Typed>) => {
    setTouched(true);
    setTaken(false);
    draft.change({ ...draft.value, ...change });
  };
  const drop = async () => {
    await draft.drop();
    setTaken(true);
  };
  const read = (value: TypedNumber, name: string) =>
    readTyped(value, { dimension: "distance", low: 1, high: 5_000, name });
  const [shown, there] = [read(indicated, words.indicated), read(real, words.real)];
  const both =
    shown.kind === "ok" && there.kind === "ok" ? { indicated_km: shown.base, true_km: there.base } : null;
  const found = both && inRange(both) ? measuredFactor({ ...both, how }) : null;
  const wrong = (one: ReturnType<typeof read>) => (touched && one.kind === "wrong" ? one.message : null);
  const asks = (one: ReturnType<typeof read>) => (one.kind === "ask" ? one.choices : null);
  const apart = both && !inRange(both) ? words.apart(km(both.true_km), both.indicated_km) : null;
  return (
    <Screen title={words.title} back={`/b/${view.id}/fuel`} aside={view.name} narrow>
      <p>{words.why}</p>
      <NumberField
        label={words.indicated}
        value={indicated}
        units={["km", "mi"]}
        error={wrong(shown)}
        ask={asks(shown)}
        onChange={(value) => put({ indicated: value })}
      />
      <NumberField
        label={words.real}
        value={real}
        units={["km", "mi"]}
        error={wrong(there) ?? apart}
        ask={asks(there)}
        onChange={(value) => put({ real: value })}
      />
      <ChoiceField
        label={words.how}
        value={how}
        options={Object.entries(words.hows).map(([value, label]) => ({ value, label }))}
        onChange={(value) => put({ how: value })}
      />
      {taken ? <p role="status">{words.taken}</p> : null}
      {how === "track" ? <p class="hint">{words.winding}</p> : null}
      {found ? (
        <>
          <p role="status">
            <strong>{words.found(withReach(found.factor, twoSided(found.factor_u), 3))}</strong>
          </p>
          <TakeFactor view={view} {...found} what="other" done={drop} />
        </>
      ) : null}
    </Screen>
  );
}

/** As far apart as a factor may be. */
function inRange({ indicated_km, true_km }: { indicated_km: number; true_km: number }): boolean {
  return true_km >= indicated_km / 2 && true_km <= 2 * indicated_km;
}
