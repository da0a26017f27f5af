/** The fields of a water entry: what happened to which tank, how much, and what may be drunk of it. */
import type { JSX } from "preact";
import type { Row as Entry } from "@/services/answers";
import { ChoiceField, NumberField, YesNo } from "@/ui/parts/forms";
import { words } from "@/ui/text/water";
import { type Action, type Drinkable, type readWater, usuallyDrinkable, type WaterForm } from "./entry";

interface Props {
  readonly form: WaterForm;
  readonly tanks: readonly Entry[];
  readonly error: ReturnType<typeof readWater> | null;
  readonly onChange: (form: WaterForm) => void;
}

export function Fields({ form, tanks, error, onChange }: Props): JSX.Element {
  const put = (change: Partial<WaterForm>) => onChange({ ...form, ...change });
  const foul = (id: string) => tanks.find((tank) => tank.id === id)?.body.holds !== "water";
  const actions = actionsFor(foul(form.tank_id));
  const choose = (tank_id: string) => {
    const [first] = actionsFor(foul(tank_id));
    put({ tank_id, action: foul(tank_id) === foul(form.tank_id) ? form.action : first! });
  };
  return (
    <>
      {tanks.length > 1 ? (
        <ChoiceField
          label={words.tank}
          value={form.tank_id}
          options={tanks.map((tank) => ({ value: tank.id, label: tank.body.name }))}
          onChange={choose}
        />
      ) : null}
      <ChoiceField
        label={words.what}
        value={form.action}
        options={actions.map((value) => ({ value, label: words.actions[value] }))}
        onChange={(action) => put({ action: action as Action })}
      />
      {form.action === "dump" ? (
        <YesNo
          question={words.everything}
          value={form.everything}
          onChange={(everything) => put({ everything })}
        />
      ) : null}
      {form.action === "dump" && form.everything ? null : (
        <NumberField
          label={words.litres}
          value={form.litres}
          units={["L", "gal_us", "gal_imp"]}
          large
          error={error?.error ?? null}
          ask={error?.ask ?? null}
          onChange={(litres) => put({ litres })}
        />
      )}
      {form.action === "fill" ? <Filled form={form} put={put} /> : null}
    </>
  );
}

function actionsFor(foul: boolean): readonly Action[] {
  return foul ? ["dump"] : ["fill", "draw", "dump"];
}

function listed(choices: Readonly<Record<string, string>>) {
  return Object.entries(choices).map(([value, label]) => ({ value, label }));
}

interface FilledProps {
  readonly form: WaterForm;
  readonly put: (change: Partial<WaterForm>) => void;
}

/** Where it came from guesses whether it may be drunk; a person has the last word. */
function Filled({ form, put }: FilledProps): JSX.Element {
  return (
    <>
      <YesNo question={words.full} value={form.full} onChange={(full) => put({ full })} />
      <ChoiceField
        label={words.source}
        value={form.source}
        options={listed(words.sources)}
        onChange={(source) => put({ source, drinkable: usuallyDrinkable(source) })}
      />
      <ChoiceField
        label={words.isDrinkable}
        value={form.drinkable}
        options={listed(words.drinkableChoice)}
        onChange={(value) => put({ drinkable: value as Drinkable })}
      />
    </>
  );
}
