/** The fields of one stop: odometer, litres per tank, each full or part, surface since the last entry. */
import { type ComponentChildren, Fragment, type JSX } from "preact";
import { useState } from "preact/hooks";
import type { Book } from "@/services/answers";
import { ChoiceField, NumberField, TextField, YesNo } from "@/ui/parts/forms";
import { Row } from "@/ui/parts/row";
import { figure } from "@/ui/text/figures";
import { words } from "@/ui/text/fuel";
import { type Doubt, type FillErrors, type FillForm, fuelTanks, type Surface } from "./entry";

interface Props {
  readonly book: Book;
  readonly form: FillForm;
  readonly errors: FillErrors;
  readonly doubts: readonly Doubt[];
  readonly last: number | null;
  /** The entry has its place before others. */
  readonly past: boolean;
  readonly onChange: (form: FillForm) => void;
  /** What stands under the figures while they are typed. */
  readonly under?: ComponentChildren;
}

export function FillFields({ book, form, errors, doubts, last, past, onChange, under }: Props): JSX.Element {
  const put = (change: Partial<FillForm>) => onChange({ ...form, ...change });
  return (
    <>
      <NumberField
        label={words.odometer}
        {...(last === null || past ? {} : { hint: words.lastOdometer(figure(last)) })}
        value={form.odometer}
        units={["km", "mi"]}
        whole
        large
        error={errors.odometer ?? null}
        onChange={(odometer) => put({ odometer })}
      />
      <Tanks book={book} form={form} errors={errors} doubts={doubts} put={put} />
      {under}
      <ChoiceField
        label={words.surface}
        value={form.surface}
        options={CHOICES.map((value) => ({ value, label: words.surfaces[value] }))}
        onChange={(surface) => put({ surface: surface as Surface })}
      />
      {form.surface === "mixed" ? <Mixed form={form} error={errors.shares ?? null} put={put} /> : null}
      {book.trailers.length > 0 ? (
        <YesNo question={words.towing} value={form.towing} onChange={(towing) => put({ towing })} />
      ) : null}
      {last === null ? null : (
        <YesNo
          question={past ? words.completeBefore : words.complete(figure(last))}
          value={!form.missed}
          no={words.oneMissing}
          onChange={(complete) => put({ missed: !complete })}
        />
      )}
      <More form={form} error={errors.price ?? null} put={put} />
    </>
  );
}

const CHOICES: readonly Surface[] = ["sealed", "gravel", "sand", "mixed"];

type Put = (change: Partial<FillForm>) => void;

/** A figure for each tank and can, and for each that got something: full to the click? */
function Tanks(
  props: Pick<Props, "book" | "form" | "errors" | "doubts"> & { readonly put: Put },
): JSX.Element {
  const { book, form, errors, doubts, put } = props;
  const tanks = fuelTanks(book);
  const filled = tanks.filter(({ id }) => form.lines[id]?.text.trim());
  const asked = filled.length > 0 ? filled : tanks.slice(0, 1);
  const many = tanks.length > 1;
  return (
    <>
      {tanks.map((tank) => {
        const { id, body } = tank;
        const meant = doubts.flatMap((one) => (one.tank_id === id ? (one.meant ?? []) : []));
        return (
          <Fragment key={id}>
            <NumberField
              label={many ? words.litresInto(body.name) : words.litres}
              value={form.lines[id] ?? { text: "", unit: "L" }}
              units={["L", "gal_us", "gal_imp"]}
              large
              error={errors.lines?.[id] ?? null}
              ask={errors.ask?.[id] ?? meant}
              onChange={(value) => put({ lines: { ...form.lines, [id]: value } })}
            />
            {asked.includes(tank) ? (
              <YesNo
                question={many ? words.fullOf(body.name) : words.full}
                value={form.full[id] ?? null}
                yes={words.fullYes}
                no={words.fullNo}
                error={errors.full?.[id] ?? null}
                onChange={(full) => put({ full: { ...form.full, [id]: full } })}
              />
            ) : null}
          </Fragment>
        );
      })}
    </>
  );
}

interface PartProps {
  readonly form: FillForm;
  readonly error: string | null;
  readonly put: Put;
}

/** Kilometres of each surface; only their proportion counts. */
function Mixed({ form, error, put }: PartProps): JSX.Element {
  return (
    <>
      {(["sealed", "gravel", "sand"] as const).map((name) => (
        <NumberField
          key={name}
          label={words.kmOf(words.surfaces[name])}
          value={{ text: form.shares[name], unit: "km" }}
          units={["km"]}
          onChange={({ text }) => put({ shares: { ...form.shares, [name]: text } })}
        />
      ))}
      {error ? <span class="field-error">{error}</span> : null}
    </>
  );
}

/** What many never fill in. */
function More({ form, error, put }: PartProps): JSX.Element {
  const [open, setOpen] = useState(form.price !== "" || form.about);
  if (!open && !error) return <Row label={words.more} onTouch={() => setOpen(true)} />;
  return (
    <>
      <YesNo
        question={words.metered}
        value={!form.about}
        no={words.about}
        onChange={(metered) => put({ about: !metered })}
      />
      <NumberField
        label={words.price}
        value={{ text: form.price, unit: "" }}
        error={error}
        onChange={({ text }) => put({ price: text })}
      />
      <TextField
        label={words.currency}
        hint={words.currencyHint}
        value={form.currency}
        onChange={(currency) => put({ currency })}
      />
    </>
  );
}
