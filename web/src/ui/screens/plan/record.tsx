/** One record of the plan: a form made from the kind's list of fields. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Row } from "@/services/answers";
import { typicalIn } from "@/services/catalogue";
import { Action, Actions } from "@/ui/parts/action";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row as Line } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { words as catalogue } from "@/ui/text/catalogue";
import { words } from "@/ui/text/plan";
import { editsOf } from "./edits";
import { Field } from "./field";
import { type FieldSpec, KINDS, type KindSpec } from "./fields";
import {
  changed,
  type Form,
  type FormErrors,
  type FormValue,
  formOf,
  isAsked,
  type Read,
  readForm,
} from "./form";
import { heldBack } from "./keeping";
import { rowsOf } from "./lines";

interface Props {
  readonly book: string;
  readonly kind: string;
  /** The record's id, or "new". */
  readonly record: string;
  /** The field that somebody came for. */
  readonly field?: string;
  /** Of which log what is taken for granted was being read. */
  readonly holds?: string;
}

export default function RecordScreen({ book, kind, record, field, holds }: Props): JSX.Element | null {
  const view = useBook(book);
  const spec = KINDS[kind];
  if (!view || !spec) return null;
  const row = rowsOf(view, kind).find((one) => one.id === record) ?? null;
  const back = holds ? `/b/${book}/defaults/${holds}` : `/b/${book}/plan`;
  return <RecordForm key={record} {...{ view, kind, spec, row, back }} wanted={field ?? null} />;
}

interface FormProps {
  readonly view: BookView;
  readonly kind: string;
  readonly spec: KindSpec;
  readonly row: Row | null;
  readonly wanted: string | null;
  /** Where it was opened from. */
  readonly back: string;
}

/** Goes to the field that somebody was sent to fill, once it is there. */
function useWanted(ready: boolean, wanted: string | null): void {
  useEffect(() => {
    const there = ready && wanted && document.querySelector(`[data-field="${CSS.escape(wanted)}"]`);
    if (!there) return;
    there.scrollIntoView({ block: "center" });
    there.querySelector<HTMLElement>("input, button")?.focus();
  }, [ready, wanted]);
}

function RecordForm({ view, kind, spec, row: latest, wanted, back }: FormProps): JSX.Element | null {
  // what somebody else changes meanwhile is no edit of this form's
  const [row] = useState(latest);
  const { records, go } = useServices();
  const edits = editsOf(records, view.id);
  const draft = useDraft<Form>(`plan:${view.id}:${kind}:${row?.id ?? "new"}`, formOf(spec, row?.body ?? {}));
  const [errors, setErrors] = useState<FormErrors>({});
  const [asks, setAsks] = useState<Read["asks"]>({});
  const [more, setMore] = useState(spec.more.some((one) => one.name === wanted));
  useWanted(draft.ready, wanted);
  if (!draft.ready) return null;
  const typical = kind === "vehicle" ? typicalIn(row?.body ?? {}) : null;
  const put = (name: string, value: FormValue) => {
    setErrors(({ [name]: _, ...rest }) => rest);
    setAsks(({ [name]: _, ...rest }) => rest);
    draft.change({ ...draft.value, [name]: value });
  };
  const save = async () => {
    const read = readForm(spec, draft.value, row?.body);
    setErrors(read.errors);
    setAsks(read.asks);
    if (Object.keys(read.errors).length > 0) return setMore(true);
    if (row) {
      const edit = changed(row.body, read.fields);
      if (Object.keys(edit).length > 0) await edits.put(kind, row, edit, words.inForm);
    } else await edits.add(kind, withoutBlanks(read.fields));
    await draft.drop();
    return go(back, { replace: true });
  };
  const remove = async () => {
    if (row) await edits.remove(kind, row);
    await draft.drop();
    go(back, { replace: true });
  };
  const field = (one: FieldSpec) => (
    <div key={one.name} data-field={one.name}>
      <Field
        spec={one}
        view={view}
        onTrailer={Boolean(draft.value.trailer_id)}
        value={draft.value[one.name] ?? null}
        said={kind === "item" ? heldBack(draft.value)[one.name] : undefined}
        error={asks[one.name] ? undefined : errors[one.name]}
        ask={asks[one.name]}
        onChange={put}
      />
    </div>
  );
  const asked = (fields: readonly FieldSpec[]) => fields.filter((one) => isAsked(one, draft.value));
  return (
    <Screen title={row?.body.name ?? spec.title} back={back}>
      {typical ? <Notice>{catalogue.typical(typical)}</Notice> : null}
      {Object.keys(errors).length > 0 ? <Notice tone="warn">{words.look}</Notice> : null}
      {asked(spec.first).map(field)}
      {more ? asked(spec.more).map(field) : <Line label={words.more} onTouch={() => setMore(true)} />}
      {row && kind !== "vehicle" ? <Line label={words.remove} onTouch={remove} /> : null}
      <Actions>
        <Action label={words.save} onTouch={save} />
      </Actions>
    </Screen>
  );
}

function withoutBlanks(fields: Row["body"]): Row["body"] {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
}
