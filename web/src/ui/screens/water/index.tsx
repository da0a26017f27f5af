/** Water: for how many days, and what went in or out. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import { Action, Actions } from "@/ui/parts/action";
import { Ahead, AheadFrom } from "@/ui/parts/ahead";
import { Cautions } from "@/ui/parts/cautions";
import { apart, Findings } from "@/ui/parts/findings";
import { Heard } from "@/ui/parts/heard";
import { type BookView, useBook, useDraft, useSaved, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { useWhere } from "@/ui/parts/where";
import { FirstTank } from "@/ui/screens/fuel/first_tank";
import { Levels } from "@/ui/screens/level/levels";
import { water as cautions } from "@/ui/text/cautions";
import { words as fuelWords } from "@/ui/text/fuel";
import { words as road } from "@/ui/text/road";
import { words } from "@/ui/text/water";
import { emptyWater, readWater, type WaterForm } from "./entry";
import { Fields } from "./fields";
import { People } from "./people";
import { Headline, Rests } from "./rests";

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
  const where = useWhere(view);
  const [saved, setSaved] = useSaved();
  const answer = useMemo(() => answers.water(view.book, clock.now()), [view.book]);
  const [fresh, others] = apart(answer?.findings ?? [], saved);
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      <div class="columns">
        <div>
          {answer ? <Headline answer={answer} /> : <p class="hint">{words.noLog}</p>}
          <Ahead {...{ view, where }} holds="water" />
          {saved ? <p role="status">{words.saved}</p> : null}
          {others.length > 0 ? <p>{fuelWords.asked(others.length)}</p> : null}
          <Findings view={view} findings={fresh} />
          <WaterEntry
            view={view}
            name={`water:${view.id}`}
            initial={{ ...emptyWater, tank_id: tanks[0]!.id }}
            onChange={() => setSaved(null)}
            onSaved={setSaved}
          />
          <Findings view={view} findings={others} />
          <AheadFrom {...{ view, where }} />
        </div>
        <div>
          <Levels view={view} tanks={[...tanks, ...foulTanks(view)]} onSaved={setSaved} />
          <People view={view} />
          {answer ? <Rests answer={answer} view={view} /> : null}
          <Heard view={view} />
          <Row label={words.toUse} to={`/b/${view.id}/entry/water_use`} />
          <Row label={words.toBreakdown} to={`/b/${view.id}/breakdown`} />
          <Row label={road.link} to={`/b/${view.id}/road`} />
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
  /** The body with what it keeps of an entry that it corrects. */
  readonly keep?: (form: WaterForm, body: Entry["body"]) => Entry["body"];
  readonly onChange?: () => void;
  readonly onSaved: (id: string) => void;
}

/** The form of one entry with its button. */
export function WaterEntry(props: WaterEntryProps): JSX.Element | null {
  const { view, name, initial, beside, keep, onChange, onSaved } = props;
  const { clock, records } = useServices();
  const draft = useDraft<WaterForm>(name, initial);
  const [error, setError] = useState<ReturnType<typeof readWater> | null>(null);
  if (!draft.ready) return null;
  const form = draft.value;
  const tanks = [...waterTanks(view), ...foulTanks(view)];
  const save = async () => {
    const tank = tanks.find((one) => one.id === form.tank_id) ?? tanks[0]!;
    const read = readWater(tank, form, clock.now(), clock.zone());
    setError(read);
    if (!read.body) return;
    const id = await records.log(view.id, "water", { ...(keep?.(form, read.body) ?? read.body), ...beside });
    await draft.drop();
    onSaved(id);
  };
  const change = (next: WaterForm) => {
    setError(null);
    onChange?.();
    draft.change(next);
  };
  return (
    <>
      <Fields form={form} tanks={tanks} error={error} onChange={change} />
      <Actions>
        <Action label={words.save} onTouch={save} />
      </Actions>
    </>
  );
}

const FOUL: readonly string[] = ["grey", "waste"];

function foulTanks({ book }: BookView): readonly Entry[] {
  return book.tanks.filter(({ body }) => FOUL.includes(body.holds));
}

function waterTanks({ book }: BookView): readonly Entry[] {
  return book.tanks.filter((tank) => tank.body.holds === "water");
}
