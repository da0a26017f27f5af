/** A tank's picture with what the log says of it; touched where the level stands, or typed, it is the next reading. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import { floorsIn, readingU } from "@/services/levels";
import { Action } from "@/ui/parts/action";
import { type Standing, TankPicture } from "@/ui/parts/drawing/tank_picture";
import { ChoiceField, NumberField } from "@/ui/parts/forms";
import { type BookView, useDay, useDraft, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { figure, twoSided } from "@/ui/text/figures";
import { tankTold, words } from "@/ui/text/tank";
import { atLitres, atQuarter, type DipForm, emptyDip, lastOdometer, quarterIn, readDip, uOf } from "./dip";

interface Props {
  readonly view: BookView;
  readonly tanks: readonly Entry[];
  readonly onSaved: (id: string) => void;
}

export function Levels({ view, tanks, onSaved }: Props): JSX.Element | null {
  const [picked, setPicked] = useState<string | null>(null);
  const tank = tanks.find((one) => one.id === picked) ?? tanks[0];
  if (!tank) return null;
  return (
    <Section title={words.title}>
      {tanks.length > 1 ? (
        <ChoiceField
          label={words.which}
          value={tank.id}
          options={tanks.map((one) => ({ value: one.id, label: one.body.name }))}
          onChange={setPicked}
        />
      ) : null}
      <DipEntry
        key={tank.id}
        {...{ view, tank, onSaved }}
        name={`dip:${view.id}:${tank.id}`}
        initial={emptyDip(view.book, tank)}
      />
    </Section>
  );
}

export interface DipEntryProps {
  readonly view: BookView;
  readonly tank: Entry;
  /** The draft's name. */
  readonly name: string;
  readonly initial: DipForm;
  /** Fields of the record beside those of the form: what it corrects, when it happened. */
  readonly beside?: Readonly<Record<string, unknown>>;
  readonly onSaved: (id: string) => void;
}

export function DipEntry(props: DipEntryProps): JSX.Element | null {
  const { view, tank, name, initial, beside, onSaved } = props;
  const { clock, records } = useServices();
  const day = useDay(view);
  const draft = useDraft<DipForm>(name, initial);
  const [tried, setTried] = useState(false);
  if (!tank.body.capacity_l)
    return <Row label={words.needCapacity(tank.body.name)} to={`/b/${view.id}/plan/tank/${tank.id}`} />;
  if (!draft.ready) return null;
  const form = draft.value;
  const read = readDip(tank, form, clock.now(), clock.zone());
  const change = (next: DipForm) => {
    setTried(false);
    draft.change(next);
  };
  const save = async () => {
    setTried(true);
    if (!read.body) return;
    const id = await records.log(view.id, "dip", { ...read.body, ...beside });
    await draft.drop();
    setTried(false);
    onSaved(id);
  };
  const begun = form.amount.text.trim() !== "";
  return (
    <>
      <Picture {...{ view, tank, day, form }} dip={read.standing} onChange={change} />
      <Amount
        {...{ form, change }}
        error={tried || begun ? (read.errors.amount ?? null) : null}
        ask={read.asks.amount ?? null}
      />
      {begun ? (
        <>
          <HowRead {...{ view, tank, form, read, change }} />
          <Action label={words.save} onTouch={save} />
        </>
      ) : null}
    </>
  );
}

interface PictureProps extends Pick<DipEntryProps, "view" | "tank"> {
  readonly day: ReturnType<typeof useDay>;
  readonly form: DipForm;
  readonly dip: Standing | null;
  readonly onChange: (form: DipForm) => void;
}

function Picture({ view, tank, day, form, dip, onChange }: PictureProps): JSX.Element {
  const { state, read } = day;
  const { name, capacity_l, unusable_l } = tank.body;
  const known = state.tanks?.find((one) => one.tank_id === tank.id && one.known_from !== "prior");
  const level = known ? { share: known.level, reach: twoSided(known.level_u) } : null;
  const since = tank.body.holds === "fuel" ? words.fromLogSince : words.fromLog;
  const after = level ? since : words.readIt;
  const told = read ? tankTold(name, capacity_l, level) + after : words.reading(name);
  const floor_l = floorsIn(view.book, state)[tank.id] ?? 0;
  return (
    <>
      <TankPicture
        {...{ capacity_l, floor_l, dip }}
        unusable_l={unusable_l ?? 0}
        level={level ? { litres: level.share * capacity_l, reach: level.reach * capacity_l } : null}
        title={told}
        label={words.slider(name)}
        onDip={(litres) => onChange(atLitres(form, litres))}
      />
      <p>{told}</p>
      <p class="hint">{words.touch}</p>
    </>
  );
}

interface AmountProps {
  readonly form: DipForm;
  readonly error: string | null;
  readonly ask: Parameters<typeof NumberField>[0]["ask"];
  readonly change: (form: DipForm) => void;
}

function Amount({ form, error, ask = null, change }: AmountProps): JSX.Element {
  const quarter = quarterIn(form);
  return (
    <>
      <ChoiceField
        label={words.lamps}
        value={quarter === null ? "" : String(quarter)}
        options={words.quarters.map((label, k) => ({ value: String(k), label }))}
        onChange={(value) => change(atQuarter(form, Number(value)))}
      />
      <NumberField
        label={words.amount}
        value={form.amount}
        units={["L", "%", "gal_us", "gal_imp"]}
        error={error}
        ask={ask}
        onChange={(amount) => change({ ...form, amount, touched: false })}
      />
    </>
  );
}

interface HowProps extends Pick<DipEntryProps, "view" | "tank"> {
  readonly form: DipForm;
  readonly read: ReturnType<typeof readDip>;
  readonly change: (form: DipForm) => void;
}

/** How it was read, with the ± that this means, and for fuel the odometer. */
function HowRead({ view, tank, form, read, change }: HowProps): JSX.Element {
  const last = lastOdometer(view.book);
  const own = form.how === "gauge" && tank.body.gauge_u != null;
  const usual = words.usual(uOf(tank, form), readingU(tank.body, form.how), own);
  return (
    <>
      <ChoiceField
        label={words.how}
        value={form.how}
        options={Object.entries(words.hows).map(([value, label]) => ({ value, label }))}
        onChange={(how) => change({ ...form, how })}
      />
      <NumberField
        label={words.u}
        hint={usual}
        value={form.u}
        units={["L", "%"]}
        error={read.errors.u ?? null}
        ask={read.asks.u ?? null}
        onChange={(u) => change({ ...form, u })}
      />
      {tank.body.holds === "fuel" ? (
        <NumberField
          label={words.odometer}
          hint={last === null ? words.mayBeBlank : words.last(figure(last))}
          value={form.odometer}
          units={["km", "mi"]}
          whole
          error={read.errors.odometer ?? null}
          ask={read.asks.odometer ?? null}
          onChange={(odometer) => change({ ...form, odometer })}
        />
      ) : null}
    </>
  );
}
