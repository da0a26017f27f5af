/** Water: for how many days, and what went in or out. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import type { WaterAnswer } from "@/services/consumption";
import { Action, Actions } from "@/ui/parts/action";
import { Cautions } from "@/ui/parts/cautions";
import { Findings } from "@/ui/parts/findings";
import { ChoiceField, NumberField, YesNo } from "@/ui/parts/forms";
import { Heard } from "@/ui/parts/heard";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { FirstTank } from "@/ui/screens/fuel/first_tank";
import { water as cautions } from "@/ui/text/cautions";
import { days, figure, litres, twoSided } from "@/ui/text/figures";
import { words } from "@/ui/text/water";
import { emptyWater, readWater, type Action as WaterAction, type WaterForm } from "./entry";

export default function WaterScreen({ book: id }: { readonly book: string }): JSX.Element | null {
  const view = useBook(id);
  const { records } = useServices();
  const [capacity, setCapacity] = useState({ text: "", unit: "L" });
  if (!view) return null;
  const tanks = waterTanks(view);
  if (tanks.length === 0)
    return <FirstTank view={view} holds="water" litres={capacity} onChange={setCapacity} add={records.add} />;
  return <Water view={view} tanks={tanks} />;
}

interface Props {
  readonly view: BookView;
  readonly tanks: readonly Entry[];
}

function Water({ view, tanks }: Props): JSX.Element {
  const { answers, clock } = useServices();
  const [saved, setSaved] = useState(false);
  const answer = useMemo(() => answers.water(view.book, clock.now()), [view.book]);
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      <div class="columns">
        <div>
          {answer ? <Headline answer={answer} /> : <p class="hint">{words.noLog}</p>}
          {saved ? <p role="status">{words.saved}</p> : null}
          {answer ? <Findings view={view} findings={answer.findings} /> : null}
          <WaterEntry
            view={view}
            name={`water:${view.id}`}
            initial={{ ...emptyWater, tank_id: tanks[0]!.id }}
            onChange={() => setSaved(false)}
            onSaved={() => setSaved(true)}
          />
        </div>
        <div>
          {answer ? <Rests answer={answer} /> : null}
          <Heard view={view} />
          <Row label={words.toLog} to={`/b/${view.id}/log`} />
        </div>
      </div>
      <Cautions lines={cautions} />
    </Screen>
  );
}

export interface WaterEntryProps {
  readonly view: BookView;
  /** The draft's name. */
  readonly name: string;
  readonly initial: WaterForm;
  /** Fields of the record beside those of the form: what it corrects, when it happened. */
  readonly beside?: Readonly<Record<string, unknown>>;
  readonly onChange?: () => void;
  readonly onSaved: () => void;
}

/** The form of one entry with its button. */
export function WaterEntry(props: WaterEntryProps): JSX.Element | null {
  const { view, name, initial, beside, onChange, onSaved } = props;
  const { clock, records } = useServices();
  const draft = useDraft<WaterForm>(name, initial);
  const [error, setError] = useState<ReturnType<typeof readWater> | null>(null);
  if (!draft.ready) return null;
  const form = draft.value;
  const tanks = waterTanks(view);
  const save = async () => {
    const tank = tanks.find((one) => one.id === form.tank_id) ?? tanks[0]!;
    const read = readWater(tank, form, clock.now(), clock.zone());
    setError(read);
    if (!read.body) return;
    await records.log(view.id, read.kind, { ...read.body, ...beside });
    await draft.drop();
    onSaved();
  };
  const change = (next: WaterForm) => {
    setError(null);
    onChange?.();
    draft.change(next);
  };
  return (
    <>
      <Fields form={form} tanks={tanks} error={error} fixed={beside !== undefined} onChange={change} />
      <Actions>
        <Action label={words.save} onTouch={save} />
      </Actions>
    </>
  );
}

function waterTanks({ book }: BookView): readonly Entry[] {
  return book.tanks.filter((tank) => tank.body.holds === "water");
}

function Headline({ answer }: { readonly answer: WaterAnswer }): JSX.Element {
  const { count_on_days, likely_days } = answer;
  return (
    <div role="status">
      <p class="answer">
        <strong>{count_on_days === null ? words.nobody : words.countOn(days(count_on_days))}</strong>
      </p>
      {likely_days === null ? null : <p>{words.likely(days(likely_days))}</p>}
    </div>
  );
}

function Rests({ answer }: { readonly answer: WaterAnswer }): JSX.Element {
  return (
    <div>
      <Section title={words.restsOn}>
        <Row
          label={words.left}
          figure={`${litres(answer.litres)} ± ${Math.round(twoSided(answer.litres_u))}`}
          note={words.drinkable[answer.drinkable]}
        />
        {answer.drinkable === "yes" || answer.drinkable_days === null ? null : (
          <Row label={words.drinkableAlone} figure={days(answer.drinkable_days)} />
        )}
        <Row label={words.people} figure={figure(answer.people, 1)} />
        <Row
          label={words.rate}
          figure={`${litres(answer.l_per_person_day, 1)} ± ${twoSided(answer.rate_u).toFixed(1)}`}
          note={words.readings(answer.readings)}
        />
        {answer.floor_days === null ? null : <Row label={words.floor} figure={days(answer.floor_days)} />}
        <Row label={words.reserve} figure={litres(answer.reserve_l)} />
      </Section>
    </div>
  );
}

interface FieldsProps {
  readonly form: WaterForm;
  readonly tanks: readonly Entry[];
  readonly error: ReturnType<typeof readWater> | null;
  /** The entry stays of its kind. */
  readonly fixed: boolean;
  readonly onChange: (form: WaterForm) => void;
}

const ACTIONS: readonly WaterAction[] = ["fill", "draw", "level"];

function Fields({ form, tanks, error, fixed, onChange }: FieldsProps): JSX.Element {
  return (
    <>
      <ChoiceField
        label={words.what}
        value={form.action}
        options={ACTIONS.slice(0, fixed ? 2 : 3).map((value) => ({
          value,
          label: words.actions[value],
        }))}
        onChange={(action) => onChange({ ...form, action: action as WaterAction })}
      />
      {tanks.length > 1 ? (
        <ChoiceField
          label={words.tank}
          value={form.tank_id}
          options={tanks.map((tank) => ({ value: tank.id, label: tank.body.name }))}
          onChange={(tank_id) => onChange({ ...form, tank_id })}
        />
      ) : null}
      <NumberField
        label={form.action === "level" ? words.litresNow : words.litres}
        value={form.litres}
        units={["L", "gal_us", "gal_imp"]}
        large
        error={error?.error ?? null}
        ask={error?.ask ?? null}
        onChange={(value) => onChange({ ...form, litres: value })}
      />
      {form.action === "fill" ? (
        <>
          <YesNo question={words.full} value={form.full} onChange={(full) => onChange({ ...form, full })} />
          <ChoiceField
            label={words.isDrinkable}
            value={form.drinkable}
            options={(["yes", "no", "unknown"] as const).map((value) => ({
              value,
              label: words.drinkableChoice[value],
            }))}
            onChange={(value) => onChange({ ...form, drinkable: value as WaterForm["drinkable"] })}
          />
        </>
      ) : null}
    </>
  );
}
