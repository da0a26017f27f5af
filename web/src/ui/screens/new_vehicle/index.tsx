/** A new vehicle: a name, and whichever ratings can be read. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { baseVehicles } from "@/services/catalogue";
import { useGiven, useUser } from "@/ui/context";
import { Action, Actions } from "@/ui/parts/action";
import { Form } from "@/ui/parts/form";
import { ChoiceField, NumberField, TextField } from "@/ui/parts/forms";
import { Notice } from "@/ui/parts/notice";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { useDraft } from "@/ui/parts/watch";
import { words as catalogue } from "@/ui/text/catalogue";
import { newVehicle as words } from "@/ui/text/home";
import { unitsOf } from "@/units/units";
import { emptyForm, RATINGS, type Rating, readVehicle, type VehicleErrors, type VehicleForm } from "./form";

const DRAFT = "new";
const BASES = baseVehicles().map(({ id, name }) => ({ value: id, label: name }));
const RIGHT: VehicleErrors = { ratings: {}, asks: {} };

export default function NewVehicleScreen(): JSX.Element | null {
  const { newId, records } = useUser();
  const { go } = useGiven().router;
  const fresh = useMemo(() => emptyForm(newId()), []);
  const draft = useDraft<VehicleForm>(DRAFT, fresh);
  const [errors, setErrors] = useState(RIGHT);
  const [doubt, setDoubt] = useState<string | null>(null);
  if (!draft.ready) return null;
  const form = draft.value;
  const change = (next: VehicleForm) => {
    setErrors(RIGHT);
    setDoubt(null);
    draft.change(next);
  };
  const save = async () => {
    const read = readVehicle(form);
    setErrors(read.errors);
    if (read.vehicle === null) return;
    if (read.doubt !== null && doubt === null) return setDoubt(read.doubt);
    const others = read.plate ? [read.plate] : [];
    const book = await records.newVehicle(read.vehicle, others, { id: form.id, draft: DRAFT });
    await draft.drop();
    go(`/b/${book}`, { replace: true });
  };
  return (
    <Screen title={words.title} back="/" narrow>
      <Form onEnter={save}>
        <TextField
          label={words.name}
          value={form.name}
          onChange={(name) => change({ ...form, name })}
          error={errors.name ?? null}
          autofocus
        />
        <Section title={words.ratings}>
          <p class="hint">{words.ratingsHint}</p>
          {RATINGS.map((rating) => (
            <RatingField key={rating} rating={rating} form={form} errors={errors} onChange={change} />
          ))}
        </Section>
        <ChoiceField
          label={catalogue.start}
          hint={catalogue.startHint}
          value={form.base ?? ""}
          options={[{ value: "", label: catalogue.startNone }, ...BASES]}
          onChange={(base) => change({ ...form, base })}
        />
        {doubt ? <Notice tone="warn">{doubt}</Notice> : null}
        <Actions>
          <Action label={doubt ? words.anyway : words.make} onTouch={save} />
        </Actions>
      </Form>
    </Screen>
  );
}

interface RatingProps {
  readonly rating: Rating;
  readonly form: VehicleForm;
  readonly errors: VehicleErrors;
  readonly onChange: (form: VehicleForm) => void;
}

function RatingField({ rating, form, errors, onChange }: RatingProps): JSX.Element {
  return (
    <NumberField
      label={words[rating]}
      value={form.ratings[rating]}
      units={unitsOf("mass")}
      onChange={(value) => onChange({ ...form, ratings: { ...form.ratings, [rating]: value } })}
      error={errors.ratings[rating] ?? null}
      ask={errors.asks[rating] ?? null}
    />
  );
}
