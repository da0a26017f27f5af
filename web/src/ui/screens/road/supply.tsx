/** One supply opened: what was said of it, a look at what if, and a report for everybody. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { type Body, type Report, reportBody, reportOf } from "@/services/road";
import { Action } from "@/ui/parts/action";
import { ChoiceField, TextField } from "@/ui/parts/forms";
import { type BookView, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { saidWords, words } from "@/ui/text/reports";

interface Props {
  readonly view: BookView;
  readonly supply: Body;
  readonly holds: "fuel" | "water";
  readonly onStrike: () => void;
  readonly done: () => void;
}

export function Supply({ view, supply, holds, onStrike, done }: Props): JSX.Element {
  const { clock } = useServices();
  const report = useReport(view, supply, holds);
  const may = view.role !== "fitter";
  return (
    <div>
      {report ? <p>{saidWords(report, view, clock.zone())}</p> : null}
      <Row
        label={supply.what_if ? words.whatIfBack : words.whatIf(isStruck(supply, holds))}
        onTouch={onStrike}
      />
      {report && may ? <Row label={words.correct} to={`/b/${view.id}/correct/${report.entry_id}`} /> : null}
      {may ? <Say view={view} supply={supply} done={done} /> : null}
    </div>
  );
}

/** The latest said of a supply. */
export function useReport(view: BookView, { name }: Body, holds: "fuel" | "water"): Report | null {
  const { clock } = useServices();
  return reportOf(view.book, name, clock.now())?.[holds] ?? null;
}

/** Struck out for this content: by the record, a report, or somebody who only looks. */
export function isStruck(supply: Body, holds: "fuel" | "water"): boolean {
  return Boolean(supply.shut || supply[`${holds}_shut`]);
}

function Say({ view, supply, done }: Pick<Props, "view" | "supply" | "done">): JSX.Element {
  const { records } = useServices();
  const [found, setFound] = useState("");
  const [note, setNote] = useState("");
  const [error, setError] = useState<string | null>(null);
  const known = Object.entries(words.founds).filter(([value]) => value !== "no_fuel" || supply.fuel);
  const options = known.filter(([value]) => value !== "no_water" || supply.water);
  const save = async () => {
    if (!found) return setError(words.need);
    await records.log(view.id, "event", reportBody(supply.name, found, note));
    return done();
  };
  return (
    <>
      <ChoiceField
        label={words.what}
        value={found}
        options={options.map(([value, label]) => ({ value, label }))}
        onChange={(value) => {
          setError(null);
          setFound(value);
        }}
      />
      {error ? <span class="field-error">{error}</span> : null}
      {found === "open" && !supply.certain ? <p class="hint">{words.openHint}</p> : null}
      <TextField label={words.how} hint={words.howHint} value={note} onChange={setNote} />
      <Action label={words.report} kind="plain" onTouch={save} />
    </>
  );
}
