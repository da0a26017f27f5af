/** Each list of the book as a file, named after the vehicle, in the units and with the decimal mark of who wants it. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { fileName, type Written } from "@/services/lists/export";
import { saveFile } from "@/ui/parts/file";
import { ChoiceField } from "@/ui/parts/forms";
import type { BookView } from "@/ui/parts/live";
import { SelectField } from "@/ui/parts/pick";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/lists";
import { unitLabel, unitsOf } from "@/units/units";
import { listsOf } from "./kinds";

const DIMENSIONS = ["mass", "length", "volume", "distance"] as const;
const MARKS = [".", ","] as const;

export function GiveOut({ view: { book, name } }: { readonly view: BookView }): JSX.Element {
  const [how, setHow] = useState<Written>({ units: book.vehicle?.body.units ?? {}, mark: markHere() });
  return (
    <Section title={words.give}>
      {DIMENSIONS.map((one) => (
        <SelectField
          key={one}
          label={words.unitFor[one]}
          value={how.units[one] ?? unitsOf(one)[0]!}
          options={unitsOf(one).map((value) => ({ value, label: unitLabel(value) }))}
          onChange={(unit) => setHow({ ...how, units: { ...how.units, [one]: unit } })}
        />
      ))}
      <ChoiceField
        label={words.withMark}
        value={how.mark}
        options={MARKS.map((value) => ({ value, label: words.decimals[value]! }))}
        onChange={(mark) => setHow({ ...how, mark: mark as Written["mark"] })}
      />
      {how.mark === "," ? <p class="hint">{words.withComma}</p> : null}
      {listsOf(book).map(({ kind, rows, text }) => {
        const label = words.kinds[kind]!;
        const save = () => saveFile(fileName(name, label), text(how), "text/csv;charset=utf-8");
        return (
          <Row key={kind} label={label} said={words.rows(rows)} {...(rows > 0 ? { onTouch: save } : {})} />
        );
      })}
    </Section>
  );
}

/** The decimal mark of the language that the browser is set to. */
function markHere(): Written["mark"] {
  const parts = new Intl.NumberFormat().formatToParts(1.5);
  return parts.find((one) => one.type === "decimal")?.value === "," ? "," : ".";
}
