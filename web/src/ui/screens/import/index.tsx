/** Lists in and out: a list is shown as it will be kept before anything of it is. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { Action, Actions } from "@/ui/parts/action";
import { ChoiceField } from "@/ui/parts/forms";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/lists";
import { GiveOut } from "./give_out";
import { kindsFor } from "./kinds";
import { Preview } from "./preview";
import { EMPTY, type ListForm, MOST_ROWS, type Reading, readList } from "./reading";
import { Columns, HowRead, Questions } from "./settings";
import { Source } from "./source";

export default function ImportScreen({ book }: { readonly book: string }): JSX.Element | null {
  const view = useBook(book);
  return view ? <Import view={view} /> : null;
}

function Import({ view }: { readonly view: BookView }): JSX.Element | null {
  const { records, clock } = useServices();
  const key = `import:${view.id}`;
  const draft = useDraft<ListForm>(key, EMPTY);
  const [done, setDone] = useState<readonly [number, number] | null>(null);
  const [saved, setSaved] = useState<number | null>(null);
  const kinds = kindsFor(view.role);
  const form = kinds.includes(draft.value.kind) ? draft.value : { ...draft.value, kind: kinds[0]! };
  const reading = useMemo(
    () =>
      form.text.trim() === "" ? null : readList(form, view.book, { now: clock.now(), zone: clock.zone() }),
    [draft.value, view.book],
  );
  if (!draft.ready) return null;
  const change = (next: ListForm) => {
    setSaved(null);
    draft.change(next);
  };
  const save = async ({ ready, taken }: Reading) => {
    try {
      await records.takeIn(view.id, ready, { draft: key, onProgress: (...told) => setDone(told) });
    } finally {
      setDone(null);
    }
    await draft.drop();
    setSaved(taken);
  };
  return (
    <Screen title={view.name} back={`/b/${view.id}/plan`} aside={words.title}>
      {saved === null ? null : (
        <>
          <p role="status">{words.saved(saved)}</p>
          <Row label={words.toPlan} to={`/b/${view.id}/plan`} />
          <Row label={words.toLog} to={`/b/${view.id}/log`} />
        </>
      )}
      <Section title={words.bring}>
        <ChoiceField
          label={words.kind}
          value={form.kind}
          options={kinds.map((kind) => ({ value: kind, label: words.kinds[kind]! }))}
          onChange={(kind) => change({ ...form, kind, said: keptOf(form) })}
        />
        {view.role === "owner" ? null : <p class="hint">{words.roles[view.role]}</p>}
        <Source form={form} reading={reading} onChange={change} onDrop={() => void draft.drop()} />
      </Section>
      {reading ? (
        <AsRead {...{ form, reading, done }} book={view.id} onChange={change} onSave={() => save(reading)} />
      ) : (
        <GiveOut view={view} />
      )}
    </Screen>
  );
}

interface AsReadProps {
  readonly book: string;
  readonly form: ListForm;
  readonly reading: Reading;
  /** How many of how many are written, while they are. */
  readonly done: readonly [number, number] | null;
  readonly onChange: (form: ListForm) => void;
  readonly onSave: () => unknown;
}

function AsRead({ book, form, reading, done, onChange, onSave }: AsReadProps): JSX.Element {
  const { held, taken, layout } = reading;
  const nothing = held || taken === 0 || layout.rows.length > MOST_ROWS || done !== null;
  return (
    <>
      <div class="columns">
        <div>
          <Questions {...{ book, form, reading, onChange }} />
          <HowRead form={form} layout={layout} onChange={onChange} />
          <Columns form={form} reading={reading} onChange={onChange} />
        </div>
        <Preview form={form} reading={reading} onChange={onChange} />
      </div>
      <Actions>
        {done ? <p role="status">{words.progress(...done)}</p> : null}
        {held ? <p class="hint">{words.first}</p> : null}
        <Action label={taken > 0 ? words.save(taken) : words.nothing} disabled={nothing} onTouch={onSave} />
      </Actions>
    </>
  );
}

/** What stays when the list is taken as one of another kind: how the text is cut, not what its columns are. */
function keptOf({ said: { delimiter, header, decimal } }: ListForm): ListForm["said"] {
  return {
    ...(delimiter === undefined ? {} : { delimiter }),
    ...(header === undefined ? {} : { header }),
    ...(decimal === undefined ? {} : { decimal }),
  };
}
