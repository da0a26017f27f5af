/** Fuel or water moved, something on the vehicle changed: one small form, also to correct one. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Row } from "@/services/answers";
import { Action, Actions } from "@/ui/parts/action";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { Screen } from "@/ui/parts/screen";
import { FieldList } from "@/ui/screens/plan/field_list";
import { type Form, formOf, type Read, readForm } from "@/ui/screens/plan/form";
import { words } from "@/ui/text/entry";
import { bodyOf, bodyShown, fieldsOf, KIND, lacking, type What } from "./spec";

interface Props {
  readonly book: string;
  readonly what: string;
}

export default function EntryScreen({ book, what }: Props): JSX.Element | null {
  const view = useBook(book);
  const { go } = useServices();
  if (!view || !(what in KIND)) return null;
  const back = `/b/${book}/${what === "water_use" ? "water" : "fuel"}`;
  return (
    <Screen title={words.titles[what as What]} back={back} aside={view.name} narrow>
      <SmallEntry view={view} what={what as What} row={null} onSaved={() => go(back, { replace: true })} />
    </Screen>
  );
}

interface SmallProps {
  readonly view: BookView;
  readonly what: What;
  /** The entry that is corrected. */
  readonly row: Row | null;
  readonly onSaved: () => void;
}

export function SmallEntry({ view, what, row, onSaved }: SmallProps): JSX.Element | null {
  const { records, clock } = useServices();
  const body = bodyShown(what, view.book, row);
  const asked = (from: unknown) => ({ title: "", add: "", first: fieldsOf(what, view.book, from), more: [] });
  const initial = formOf(asked(body.from_tank_id ?? body.on), body);
  const draft = useDraft<Form>(`entry:${view.id}:${row?.id ?? what}`, initial);
  const spec = asked(draft.value.from_tank_id ?? body.on);
  const [errors, setErrors] = useState<Readonly<Record<string, string>>>({});
  const [asks, setAsks] = useState<Read["asks"]>({});
  if (!draft.ready) return null;
  const save = async () => {
    const read = readForm(spec, draft.value);
    const wrong = { ...lacking(what, view.book, read.fields), ...read.errors };
    setErrors(wrong);
    setAsks(read.asks);
    if (Object.keys({ ...wrong, ...read.asks }).length > 0) return;
    const beside = row ? { at: row.body.at, zone: row.body.zone, corrects: row.id } : {};
    const entry: Row["body"] = { ...bodyOf(what, read.fields, row?.body), ...beside };
    const now = { at: clock.now(), zone: clock.zone() };
    const factor = entry.what === "tyres" && !row ? entry.factor_after : undefined;
    const edits = { id: view.id, rev: view.book.vehicle?.rev ?? "" };
    const vehicle = { kind: "vehicle", body: { odometer_factor: factor }, edits };
    const told = { kind: KIND[what], body: { ...now, ...entry } };
    await records.takeIn(view.id, factor && view.role !== "co_driver" ? [told, vehicle] : [told]);
    await draft.drop();
    return onSaved();
  };
  return (
    <>
      <FieldList
        {...{ view, errors, asks }}
        specs={spec.first}
        value={draft.value}
        onChange={(value) => {
          setErrors({});
          setAsks({});
          draft.change(value);
        }}
      />
      <Actions>
        <Action label={words.save} onTouch={save} />
      </Actions>
    </>
  );
}
