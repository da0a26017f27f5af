/** Form controls: what is typed stays as typed, the unit stands beside it, what is wrong is said under it. */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import { words } from "@/ui/text/forms";
import type { Choice, TypedNumber } from "@/units/typed";
import { unitLabel } from "@/units/units";
import { Field, type FieldProps } from "./field";

export type { TypedNumber };

export interface NumberFieldProps extends FieldProps {
  readonly value: TypedNumber;
  readonly onChange: (value: TypedNumber) => void;
  /** Unit words to choose from; none for a bare number. */
  readonly units?: readonly string[];
  readonly whole?: boolean;
  readonly large?: boolean;
  readonly autofocus?: boolean;
  readonly ask?: readonly Choice[] | null;
}

/** A number as people type it: a decimal keypad, no spinner, no wheel, comma or point. */
export function NumberField(props: NumberFieldProps): JSX.Element {
  const { value, onChange, units = [], whole, large, ask } = props;
  const id = useId();
  return (
    <Field {...props} id={id} large={large ?? false}>
      <div class="field-box">
        <input
          id={id}
          class="field-number"
          type="text"
          inputMode={whole ? "numeric" : "decimal"}
          autocomplete="off"
          value={value.text}
          aria-invalid={Boolean(props.error)}
          aria-describedby={`${id}-told`}
          ref={props.autofocus ? focusOnce : null}
          onInput={(event) => onChange({ ...value, text: event.currentTarget.value })}
        />
        <UnitChoice value={value} units={units} onChange={onChange} label={props.label} />
      </div>
      {ask && ask.length > 0 ? <Ask ask={ask} value={value} onChange={onChange} /> : null}
    </Field>
  );
}

interface UnitChoiceProps {
  readonly value: TypedNumber;
  readonly units: readonly string[];
  readonly label: string;
  readonly onChange: (value: TypedNumber) => void;
}

function UnitChoice({ value, units, label, onChange }: UnitChoiceProps): JSX.Element | null {
  if (units.length === 0) return null;
  if (units.length === 1) return <span class="field-unit">{unitLabel(units[0]!)}</span>;
  return (
    <select
      aria-label={words.unitOf(label)}
      value={value.unit}
      onChange={(event) => onChange({ ...value, unit: event.currentTarget.value })}
    >
      {units.map((unit) => (
        <option key={unit} value={unit}>
          {unitLabel(unit)}
        </option>
      ))}
    </select>
  );
}

interface AskProps {
  readonly ask: readonly Choice[];
  readonly value: TypedNumber;
  readonly onChange: (value: TypedNumber) => void;
}

function Ask({ ask, value, onChange }: AskProps): JSX.Element {
  return (
    <div class="field-ask" role="group" aria-label={words.didYouMean}>
      <span>{words.didYouMean}</span>
      {ask.map((choice) => (
        <button key={choice.text} type="button" onClick={() => onChange({ ...value, text: choice.text })}>
          {choice.label}
        </button>
      ))}
    </div>
  );
}

export interface TextFieldProps extends FieldProps {
  readonly value: string;
  readonly onChange: (text: string) => void;
  readonly autofocus?: boolean;
  readonly autocomplete?: JSX.IntrinsicElements["input"]["autocomplete"];
  readonly secret?: boolean;
  readonly kind?: "text" | "date";
}

export function TextField(props: TextFieldProps): JSX.Element {
  const id = useId();
  const type = props.secret ? "password" : (props.kind ?? "text");
  return (
    <Field {...props} id={id}>
      <div class="field-box">
        <input
          id={id}
          type={type as "text"}
          autocomplete={props.autocomplete ?? "off"}
          value={props.value}
          aria-invalid={Boolean(props.error)}
          aria-describedby={`${id}-told`}
          ref={props.autofocus ? focusOnce : null}
          onInput={(event) => props.onChange(event.currentTarget.value)}
        />
      </div>
    </Field>
  );
}

export interface ChoiceFieldProps extends FieldProps {
  readonly value: string;
  readonly options: readonly { readonly value: string; readonly label: string }[];
  readonly onChange: (value: string) => void;
}

/** Big buttons side by side with the meaning of radio buttons. */
export function ChoiceField({ label, value, options, onChange, hint, error }: ChoiceFieldProps): JSX.Element {
  return (
    <fieldset class="choice">
      <legend>{label}</legend>
      {hint ? <span class="field-hint">{hint}</span> : null}
      <div class="choice-options" role="radiogroup" aria-label={label}>
        {options.map((option) => (
          <button
            key={option.value}
            type="button"
            role="radio"
            aria-checked={option.value === value}
            onClick={() => onChange(option.value)}
          >
            {option.label}
          </button>
        ))}
      </div>
      {error ? <span class="field-error">{error}</span> : null}
    </fieldset>
  );
}

export interface YesNoProps {
  readonly question: string;
  readonly value: boolean | null;
  readonly onChange: (value: boolean) => void;
  readonly yes?: string;
  readonly no?: string;
  readonly error?: string | null;
}

/** A question in words with two answers, never a bare tick box. */
export function YesNo({
  question,
  value,
  onChange,
  yes = words.yes,
  no = words.no,
  error = null,
}: YesNoProps): JSX.Element {
  return (
    <ChoiceField
      label={question}
      error={error}
      value={value === null ? "" : value ? "yes" : "no"}
      options={[
        { value: "yes", label: yes },
        { value: "no", label: no },
      ]}
      onChange={(answer) => onChange(answer === "yes")}
    />
  );
}

const focused = new WeakSet<HTMLInputElement>();

/** Focus when the field appears, never again when the screen is drawn anew. */
function focusOnce(input: HTMLInputElement | null): void {
  if (!input || focused.has(input)) return;
  focused.add(input);
  input.focus();
}
