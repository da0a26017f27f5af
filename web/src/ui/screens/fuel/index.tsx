/** At the bowser: the answer on top, the fill in one form below, saved in one touch more. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { Action, Actions } from "@/ui/parts/action";
import { Cautions } from "@/ui/parts/cautions";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { range } from "@/ui/text/cautions";
import { words } from "@/ui/text/fuel";
import { FuelHeadline, FuelRests } from "./answer";
import { emptyFill, type FillErrors, type FillForm, fuelTanks, lastOdometer, readFill } from "./entry";
import { FillFields } from "./fields";
import { FirstTank } from "./first_tank";

export default function FuelScreen({ book: id }: { readonly book: string }): JSX.Element | null {
  const view = useBook(id);
  if (!view) return null;
  return fuelTanks(view.book).length === 0 ? <NoTank view={view} /> : <Fuel view={view} />;
}

function NoTank({ view }: { readonly view: BookView }): JSX.Element {
  const { records } = useServices();
  const [litres, setLitres] = useState({ text: "", unit: "L" });
  return <FirstTank view={view} litres={litres} onChange={setLitres} add={records.add} holds="fuel" />;
}

function Fuel({ view }: { readonly view: BookView }): JSX.Element | null {
  const { answers, clock, records } = useServices();
  const draft = useDraft<FillForm>(`fuel:${view.id}`, emptyFill(view.book));
  const [errors, setErrors] = useState<FillErrors>({});
  const [doubts, setDoubts] = useState<readonly string[]>([]);
  const [saved, setSaved] = useState(false);
  const answer = useMemo(() => answers.fuel(view.book), [view.book]);
  if (!draft.ready) return null;
  const change = (next: FillForm) => {
    setErrors({});
    setDoubts([]);
    setSaved(false);
    draft.change(next);
  };
  const save = async () => {
    const read = readFill(view.book, draft.value, clock.now(), clock.zone());
    setErrors(read.errors);
    if (!read.body) return;
    if (read.doubts.length > 0 && doubts.length === 0) return setDoubts(read.doubts);
    await records.log(view.id, "fill", read.body);
    await draft.drop();
    setDoubts([]);
    setSaved(true);
  };
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      <div class="columns">
        <div>
          {answer ? <FuelHeadline answer={answer} /> : <p class="hint">{words.noLog}</p>}
          {saved ? <p role="status">{words.saved}</p> : null}
          <FillFields
            book={view.book}
            form={draft.value}
            errors={errors}
            last={lastOdometer(view.book)}
            onChange={change}
          />
          {doubts.map((doubt) => (
            <Notice key={doubt} tone="warn">
              {doubt}
            </Notice>
          ))}
          <Actions>
            <Action label={doubts.length > 0 ? words.saveAnyway : words.save} onTouch={save} />
          </Actions>
        </div>
        <div>
          {answer ? <FuelRests answer={answer} book={view.book} /> : null}
          <Row label={words.toLog} to={`/b/${view.id}/log`} />
        </div>
      </div>
      <Cautions lines={range} />
    </Screen>
  );
}
