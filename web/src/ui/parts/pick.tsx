/** Controls for lists: one of many, a file, a long text. */
import type { ComponentChildren, JSX } from "preact";
import { useId } from "preact/hooks";
import { Field } from "./field";

export interface SelectFieldProps {
  readonly label: string;
  readonly value: string;
  readonly options: readonly { readonly value: string; readonly label: string }[];
  readonly onChange: (value: string) => void;
  readonly hint?: string;
  /** What stands beside it, such as the unit. */
  readonly children?: ComponentChildren;
}

/** One of more choices than buttons have room for. */
export function SelectField(props: SelectFieldProps): JSX.Element {
  const { label, value, options, onChange, hint, children } = props;
  const id = useId();
  return (
    <Field {...{ id, label }} {...(hint ? { hint } : {})}>
      <div class="field-box">
        <select
          id={id}
          class="wide"
          aria-describedby={`${id}-told`}
          value={value}
          onChange={(event) => onChange(event.currentTarget.value)}
        >
          {options.map((one) => (
            <option key={one.value} value={one.value}>
              {one.label}
            </option>
          ))}
        </select>
        {children}
      </div>
    </Field>
  );
}

export interface FileFieldProps {
  readonly label: string;
  readonly accept: string;
  readonly onChoose: (file: File) => void;
}

export function FileField({ label, accept, onChoose }: FileFieldProps): JSX.Element {
  const id = useId();
  return (
    <Field {...{ id, label }}>
      <div class="field-box">
        <input
          id={id}
          type="file"
          accept={accept}
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            if (file) onChoose(file);
            event.currentTarget.value = ""; // the same file again is chosen anew
          }}
        />
      </div>
    </Field>
  );
}

export interface LongFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (text: string) => void;
}

export function LongField({ label, value, onChange }: LongFieldProps): JSX.Element {
  const id = useId();
  return (
    <Field {...{ id, label }}>
      <div class="field-box">
        <textarea
          id={id}
          rows={5}
          spellcheck={false}
          value={value}
          onInput={(event) => onChange(event.currentTarget.value)}
        />
      </div>
    </Field>
  );
}
