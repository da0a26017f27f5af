/** How a list is read: what was recognised is shown and can be changed; what could be two things is asked once. */
import type { JSX } from "preact";
import type { Column, Layout, ListField, Question, Settings } from "@/services/lists/spec";
import { ChoiceField, YesNo } from "@/ui/parts/forms";
import { Notice } from "@/ui/parts/notice";
import { SelectField } from "@/ui/parts/pick";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/lists";
import { DELIMITERS } from "@/units/csv";
import type { Mark } from "@/units/typed";
import { unitLabel, unitsOf } from "@/units/units";
import type { ListForm, Reading } from "./reading";

interface Props {
  readonly form: ListForm;
  readonly onChange: (form: ListForm) => void;
}

const MARKS = [",", "."] as const;

export function HowRead({ form, layout, onChange }: Props & { readonly layout: Layout }): JSX.Element {
  const say = (said: Settings) => onChange({ ...form, said: { ...form.said, ...said } });
  return (
    <Section title={words.how}>
      <ChoiceField
        label={words.delimiter}
        value={layout.delimiter}
        options={DELIMITERS.map((value) => ({ value, label: words.delimiters[value]! }))}
        onChange={(delimiter) => say({ delimiter, fields: {}, cells: {} })}
      />
      <YesNo
        question={words.header}
        value={layout.header}
        onChange={(header) => say({ header, fields: {} })}
      />
      <ChoiceField
        label={words.decimal}
        value={layout.decimal ?? ""}
        options={MARKS.map((value) => ({ value, label: words.decimals[value]! }))}
        onChange={(decimal) => say({ decimal: decimal as Mark })}
      />
      {layout.unclosed === null ? null : <Notice tone="warn">{words.unclosed(layout.unclosed)}</Notice>}
    </Section>
  );
}

export function Columns({ form, reading, onChange }: Props & { readonly reading: Reading }): JSX.Element {
  const { columns } = reading.layout;
  return (
    <Section title={words.columns}>
      {columns.map((column) => (
        <OneColumn key={column.index} {...{ form, reading, onChange, column }} />
      ))}
    </Section>
  );
}

interface ColumnProps extends Props {
  readonly reading: Reading;
  readonly column: Column;
}

function OneColumn({ form, reading, onChange, column }: ColumnProps): JSX.Element {
  const { field, index, samples, title, unit } = column;
  const say = (said: Settings) => onChange({ ...form, said: { ...form.said, ...said } });
  const choose = (name: string) => {
    // each field is one column: the one that had it is no longer read
    const before = reading.layout.columns.filter((one) => name !== "" && one.field?.name === name);
    const freed = Object.fromEntries(before.map((one) => [one.index, ""]));
    say({ fields: { ...form.said.fields, ...freed, [index]: name } });
  };
  const fields = reading.fields.map(({ name, label }) => ({ value: name, label }));
  return (
    <SelectField
      label={words.column(index, title)}
      hint={samples.join(" · ")}
      value={field?.name ?? ""}
      options={[{ value: "", label: words.notRead }, ...fields]}
      onChange={choose}
    >
      {field?.type === "number" && unitsOf(field.dimension).length > 1 ? (
        <select
          aria-label={words.unitOf(field.label)}
          value={unit}
          onChange={(event) =>
            say({ units: { ...form.said.units, [field.name]: event.currentTarget.value } })
          }
        >
          {unit === "" ? <option value="">{words.chooseUnit}</option> : null}
          {unitsOf(field.dimension).map((one) => (
            <option key={one} value={one}>
              {unitLabel(one) || one}
            </option>
          ))}
        </select>
      ) : null}
    </SelectField>
  );
}

export function Questions({
  form,
  reading,
  onChange,
}: Props & { readonly reading: Reading }): JSX.Element | null {
  if (reading.questions.length === 0 && !form.said.all && !form.said.marks) return null;
  const say = (said: Settings) => onChange({ ...form, said: { ...form.said, ...said } });
  const answered = reading.fields.filter((field) => form.said.all?.[field.name] !== undefined);
  return (
    <Section title={words.questions}>
      {reading.questions.map((one) => (
        <Ask key={`${one.kind} ${one.field.name}`} question={one} form={form} say={say} />
      ))}
      {answered.map((field) => (
        <ForAll key={field.name} field={field} form={form} say={say} />
      ))}
    </Section>
  );
}

interface AskProps {
  readonly form: ListForm;
  readonly say: (said: Settings) => void;
}

function Ask({ question, form, say }: AskProps & { readonly question: Question }): JSX.Element {
  const { field } = question;
  if (question.kind === "figures")
    return (
      <ChoiceField
        label={words.askFigures(field.label, question.text)}
        value=""
        options={MARKS.map((value) => ({ value, label: question.readings[value] }))}
        onChange={(mark) => say({ marks: { ...form.said.marks, [field.name]: mark as Mark } })}
      />
    );
  if (question.kind === "unit") return <Notice tone="warn">{words.askUnit(field.label)}</Notice>;
  return <ForAll field={field} form={form} say={say} />;
}

/** What holds for all rows where the list has no column for it. */
function ForAll({ field, form, say }: AskProps & { readonly field: ListField }): JSX.Element | null {
  const put = (value: string) => say({ all: { ...form.said.all, [field.name]: value } });
  const value = form.said.all?.[field.name] ?? "";
  if (field.type !== "choice") return null;
  const options = field.options.map(([one, label]) => ({ value: one, label }));
  return <ChoiceField label={words.askAll(field.label)} value={value} options={options} onChange={put} />;
}
