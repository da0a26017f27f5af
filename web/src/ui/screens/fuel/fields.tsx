/** The fields of one fill: odometer, litres per tank, full to the click, surface since the last entry. */
import type { JSX } from "preact";
import type { Book } from "@/services/answers";
import { ChoiceField, NumberField, YesNo } from "@/ui/parts/forms";
import { figure } from "@/ui/text/figures";
import { words } from "@/ui/text/fuel";
import { type FillErrors, type FillForm, fuelTanks, type Surface } from "./entry";

interface Props {
  readonly book: Book;
  readonly form: FillForm;
  readonly errors: FillErrors;
  readonly last: number | null;
  readonly onChange: (form: FillForm) => void;
}

export function FillFields({ book, form, errors, last, onChange }: Props): JSX.Element {
  const tanks = fuelTanks(book);
  return (
    <>
      <NumberField
        label={words.odometer}
        {...(last === null ? {} : { hint: words.lastOdometer(figure(last)) })}
        value={form.odometer}
        units={["km", "mi"]}
        whole
        large
        error={errors.odometer ?? null}
        onChange={(odometer) => onChange({ ...form, odometer })}
      />
      {tanks.map((tank) => (
        <NumberField
          key={tank.id}
          label={tanks.length > 1 ? words.litresInto(tank.body.name) : words.litres}
          value={form.lines[tank.id] ?? { text: "", unit: "L" }}
          units={["L", "gal_us", "gal_imp"]}
          large
          error={errors.lines?.[tank.id] ?? null}
          ask={errors.ask?.[tank.id] ?? null}
          onChange={(value) => onChange({ ...form, lines: { ...form.lines, [tank.id]: value } })}
        />
      ))}
      <YesNo
        question={words.full}
        value={form.full}
        yes={words.fullYes}
        no={words.fullNo}
        onChange={(full) => onChange({ ...form, full })}
      />
      {errors.full ? <span class="field-error">{errors.full}</span> : null}
      <ChoiceField
        label={words.surface}
        value={form.surface}
        options={SURFACES.map((value) => ({ value, label: words.surfaces[value] }))}
        onChange={(surface) => onChange({ ...form, surface: surface as Surface })}
      />
      {form.surface === "mixed" ? (
        <Mixed form={form} error={errors.shares ?? null} onChange={onChange} />
      ) : null}
      {last === null ? null : (
        <YesNo
          question={words.complete(figure(last))}
          value={!form.missed}
          no={words.oneMissing}
          onChange={(complete) => onChange({ ...form, missed: !complete })}
        />
      )}
    </>
  );
}

const SURFACES: readonly Surface[] = ["sealed", "gravel", "sand", "mixed"];

interface MixedProps {
  readonly form: FillForm;
  readonly error: string | null;
  readonly onChange: (form: FillForm) => void;
}

/** Kilometres of each surface; only their proportion counts. */
function Mixed({ form, error, onChange }: MixedProps): JSX.Element {
  return (
    <>
      {(["sealed", "gravel", "sand"] as const).map((name) => (
        <NumberField
          key={name}
          label={words.kmOf(words.surfaces[name])}
          value={{ text: form.shares[name], unit: "km" }}
          units={["km"]}
          onChange={({ text }) => onChange({ ...form, shares: { ...form.shares, [name]: text } })}
        />
      ))}
      {error ? <span class="field-error">{error}</span> : null}
    </>
  );
}
