/** How a list is read: what was recognised is shown and can be changed; what could be two things is asked once. */
import type { JSX } from "preact";
import type { Column, Layout, ListField, Question, Settings } from "@/services/lists/spec";
import { ChoiceField, TextField, YesNo } from "@/ui/parts/forms";
import { Notice } from "@/ui/parts/notice";
import { SelectField } from "@/ui/parts/pick";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { words as forms } from "@/ui/text/forms";
import { words } from "@/ui/text/lists";
import { DELIMITERS } from "@/units/csv";
import type { DayOrder } from "@/units/dates";
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

interface QuestionsProps extends Props {
  readonly reading: Reading;
  readonly book: string;
}

export function Questions({ form, reading, book, onChange }: QuestionsProps): JSX.Element | null {
  const { said } = form;
  if (reading.questions.length === 0 && !said.all && !said.dates) return null;
  const say = (more: Settings) => onChange({ ...form, said: { ...said, ...more } });
  const asked = new Set(reading.questions.map((one) => one.field.name));
  // what was answered stays, so that it can be changed
  const answered = reading.fields
    .filter(({ name }) => said.all?.[name] !== undefined && !asked.has(name))
    .map((field) => ({ kind: "all", field }) as const);
  const days = reading.fields.find((one) => one.type === "day");
  return (
    <Section title={words.questions}>
      {[...reading.questions, ...answered].map((one) => (
        <Ask key={`${one.kind} ${one.field.name}`} {...{ book, form, say }} question={one} />
      ))}
      {said.dates && days ? <Days label={days.label} value={said.dates} say={say} /> : null}
    </Section>
  );
}

interface AskProps {
  readonly book: string;
  readonly form: ListForm;
  readonly say: (said: Settings) => void;
}

function Ask({ question, ...props }: AskProps & { readonly question: Question }): JSX.Element | null {
  const { form, say } = props;
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
  if (question.kind === "days")
    return <Days label={words.askDays(field.label, question.text)} value="" say={say} />;
  return <ForAll {...props} field={field} />;
}

interface DaysProps {
  readonly label: string;
  readonly value: string;
  readonly say: (said: Settings) => void;
}

function Days({ label, value, say }: DaysProps): JSX.Element {
  const orders = Object.entries(words.orders).map(([one, said]) => ({ value: one, label: said }));
  return (
    <ChoiceField
      label={label}
      value={value}
      options={orders}
      onChange={(order) => say({ dates: order as DayOrder })}
    />
  );
}

/** What holds for all rows where the list has no column for it. */
function ForAll({ field, form, say, book }: AskProps & { readonly field: ListField }): JSX.Element | null {
  const put = (value: string) => say({ all: { ...form.said.all, [field.name]: value } });
  const common = {
    label: words.askAll(field.label),
    value: form.said.all?.[field.name] ?? "",
    onChange: put,
  };
  if (field.type === "currency") return <TextField {...common} hint={words.currencyHint} />;
  if (field.type === "day") return <Notice tone="warn">{words.askColumn(field.label)}</Notice>;
  if (field.type === "number") return <Notice tone="warn">{words.askColumn(field.label)}</Notice>;
  if (field.type === "choice" && field.options.length === 0)
    return <Row label={words.addTank} to={`/b/${book}/plan/tank/new`} />;
  const options =
    field.type === "choice"
      ? field.options
      : [
          ["yes", forms.yes],
          ["no", forms.no],
        ];
  return (
    <ChoiceField {...common} options={options.map(([value, label]) => ({ value: value!, label: label! }))} />
  );
}
