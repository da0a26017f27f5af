/** A route typed in: its legs by surface, supplies along it, who travels, what comes aboard or goes. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Row as Record } from "@/services/answers";
import { Action, Actions } from "@/ui/parts/action";
import { ChoiceField, YesNo } from "@/ui/parts/forms";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { FieldList } from "@/ui/screens/plan/field_list";
import type { Form } from "@/ui/screens/plan/form";
import type { FieldSpec } from "@/ui/screens/plan/spec";
import { km } from "@/ui/text/road";
import { ask } from "@/ui/text/route_form";
import { fieldsOf, HEAD, type Part } from "./fields";
import {
  baseOf,
  formOf,
  kmOf,
  type Line,
  lengthOf,
  lineOf,
  type ReadRoute,
  type RouteForm,
  readRoute,
} from "./form";
import { TakeIn } from "./take_in";

interface Props {
  readonly book: string;
  /** The record's id, or "new". */
  readonly route: string;
}

export default function EditRoute({ book, route }: Props): JSX.Element | null {
  const view = useBook(book);
  if (!view) return null;
  const row = view.book.routes.find((one) => one.id === route) ?? null;
  return <RouteEditor key={route} view={view} row={row} />;
}

const NOTHING: ReadRoute = { body: null, errors: {}, asks: {} };
const NEW: Line = { form: {}, kept: {} };

interface EditorProps {
  readonly view: BookView;
  readonly row: Record | null;
}

/** What is typed, what is wrong with it, which line is open, and the two ways out. */
function useRoute({ view, row }: EditorProps) {
  const { records, go } = useServices();
  const initial = row ? formOf(row.body, view.book) : { ...formOf({}, view.book), legs: [NEW] };
  const draft = useDraft<RouteForm>(`route:${view.id}:${row?.id ?? "new"}`, initial);
  const [found, setFound] = useState(NOTHING);
  const [open, setOpen] = useState<string | null>(row ? null : "legs:0");
  const form = draft.value;
  const back = `/b/${view.id}/road`;
  const change = (next: Partial<RouteForm>) => {
    setFound(NOTHING);
    draft.change({ ...form, ...next });
  };
  const save = async () => {
    const read = readRoute(form, view.book);
    setFound(read);
    const wrong = Object.keys(read.errors)[0];
    if (!read.body) return setOpen(wrong === "head" ? open : (wrong ?? null));
    const id = row?.id ?? (await records.add(view.id, "route", withoutBlanks(read.body)));
    if (row) await records.edit(view.id, "route", row.id, read.body);
    await draft.drop();
    return go(`${back}/${id}`, { replace: true });
  };
  const remove = async () => {
    if (row) await records.edit(view.id, "route", row.id, { deleted: true });
    await draft.drop();
    go(back, { replace: true });
  };
  return { ready: draft.ready, form, found, open, setOpen, back, change, save, remove };
}

interface FieldsProps {
  readonly view: BookView;
  readonly found: ReadRoute;
  /** Which part of the form it is: "head", or a list with a line's number. */
  readonly at: string;
  readonly specs: readonly FieldSpec[];
  readonly value: Form;
  readonly onChange: (next: Form) => void;
}

function Fields({ found, at, ...props }: FieldsProps): JSX.Element {
  return <FieldList {...props} errors={found.errors[at] ?? {}} asks={found.asks[at] ?? {}} />;
}

function RouteEditor({ view, row }: EditorProps): JSX.Element | null {
  const { ready, form, found, open, setOpen, back, change, save, remove } = useRoute({ view, row });
  if (!ready) return null;
  const fields = (at: string, specs: readonly FieldSpec[], value: Form, onChange: (next: Form) => void) => (
    <Fields view={view} found={found} at={at} specs={specs} value={value} onChange={onChange} />
  );
  const list = (part: Part) => (
    <List
      key={part}
      part={part}
      form={form}
      open={open}
      onOpen={setOpen}
      onChange={(lines) => change({ [part]: lines })}
      fields={(line, n, put) =>
        fields(`${part}:${n}`, fieldsOf(part, view.book), line.form, (next) => put({ ...line, form: next }))
      }
    />
  );
  return (
    <Screen title={row?.body.name ?? ask.newRoute} back={row ? `${back}/${row.id}` : back} aside={view.name}>
      {Object.keys(found.errors).length > 0 ? <Notice tone="warn">{ask.look}</Notice> : null}
      <div class="columns">
        <div>
          {fields("head", HEAD.slice(0, 1), form.head, (head) => change({ head }))}
          {list("legs")}
        </div>
        <div>
          {list("supplies")}
          {list("changes")}
          <TakeIn
            after_km={lengthOf(form)}
            onTake={(legs, supplies) => {
              change(withTaken(form, legs, supplies, view));
              setOpen(null);
            }}
          />
        </div>
        <div>
          <People view={view} people={form.people} onChange={(people) => change({ people })} />
          {fields("head", HEAD.slice(1), form.head, (head) => change({ head }))}
        </div>
      </div>
      {row ? <Row label={ask.removeRoute} onTouch={remove} /> : null}
      <Actions>
        <Action label={ask.save} onTouch={save} />
      </Actions>
    </Screen>
  );
}

/** What a file brought, after what is typed; legs without a distance give way. */
function withTaken(
  form: RouteForm,
  legs: readonly object[],
  supplies: readonly object[],
  { book }: BookView,
): Pick<RouteForm, "legs" | "supplies"> {
  const line = (part: Part) => (one: object) => lineOf(part, one, book);
  const typed = form.legs.filter((leg) => kmOf(leg) > 0 || leg.form.days);
  return {
    legs: [...typed, ...legs.map(line("legs"))],
    supplies: [...form.supplies, ...supplies.map(line("supplies"))],
  };
}

interface ListProps {
  readonly part: Part;
  readonly form: RouteForm;
  readonly open: string | null;
  readonly onOpen: (key: string | null) => void;
  readonly onChange: (lines: readonly Line[]) => void;
  readonly fields: (line: Line, n: number, put: (line: Line) => void) => JSX.Element;
}

/** Lines of a list, one of them open. */
function List({ part, form, open, onOpen, onChange, fields }: ListProps): JSX.Element {
  const lines = form[part];
  const put = (n: number) => (line: Line) => onChange(lines.map((one, m) => (m === n ? line : one)));
  const earlier = (n: number) => {
    const [one, other] = [lines[n - 1]!, lines[n]!];
    onChange([...lines.slice(0, n - 1), other, one, ...lines.slice(n + 1)]);
    onOpen(`${part}:${n - 1}`);
  };
  return (
    <Section
      title={ask.parts[part]}
      aside={part === "legs" ? <span class="hint">{ask.total(km(lengthOf(form)))}</span> : null}
    >
      {lines.map((line, n) => {
        const key = `${part}:${n}`;
        const label = labelOf(part, line, n);
        if (key !== open) return <Row key={key} label={label} onTouch={() => onOpen(key)} />;
        return (
          <div key={key}>
            <Row label={label} onTouch={() => onOpen(null)} />
            {fields(line, n, put(n))}
            {part === "legs" && n > 0 ? <Row label={ask.earlier} onTouch={() => earlier(n)} /> : null}
            <Row label={ask.remove} onTouch={() => onChange(lines.filter((_, m) => m !== n))} />
          </div>
        );
      })}
      <Row
        label={ask.add[part]}
        onTouch={() => {
          onChange([...lines, NEW]);
          onOpen(`${part}:${lines.length}`);
        }}
      />
    </Section>
  );
}

function labelOf(part: Part, line: Line, n: number): string {
  const { form } = line;
  const name = (form.label || form.name || "") as string;
  if (part !== "legs") {
    const what = name || (ask.whats as { [what: string]: string })[String(form.what)] || "?";
    return ask.at(what, km(baseOf(form.at_km)));
  }
  const far = kmOf(line);
  const days = form.days && typeof form.days === "object" && "text" in form.days ? form.days.text : "";
  const label = far === 0 && days ? ask.stay(n + 1, days) : ask.leg(n + 1, km(far));
  return name ? `${label}, ${name}` : label;
}

interface PeopleProps {
  readonly view: BookView;
  readonly people: readonly string[] | null;
  readonly onChange: (people: readonly string[] | null) => void;
}

function People({ view, people, onChange }: PeopleProps): JSX.Element | null {
  const all = view.book.people;
  if (all.length === 0) return null;
  return (
    <>
      <ChoiceField
        label={ask.people}
        value={people ? "these" : "aboard"}
        options={[
          { value: "aboard", label: ask.aboard },
          { value: "these", label: ask.these },
        ]}
        onChange={(value) => onChange(value === "these" ? all.map((one) => one.id) : null)}
      />
      {people
        ? all.map(({ id, body }) => (
            <YesNo
              key={id}
              question={body.name}
              value={people.includes(id)}
              onChange={(yes) => onChange(yes ? [...people, id] : people.filter((one) => one !== id))}
            />
          ))
        : null}
    </>
  );
}

function withoutBlanks(body: Record["body"]): Record["body"] {
  return Object.fromEntries(Object.entries(body).filter(([, value]) => value !== null));
}
