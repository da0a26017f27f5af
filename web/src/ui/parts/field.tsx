/** The frame of one control: its label, a hint, and what is wrong with what was typed. */
import type { ComponentChildren, JSX } from "preact";

export interface FieldProps {
  readonly label: string;
  readonly hint?: string;
  readonly error?: string | null;
}

interface FrameProps extends FieldProps {
  readonly id: string;
  readonly large?: boolean;
  readonly children: ComponentChildren;
}

export function Field({ id, label, hint, error, large, children }: FrameProps): JSX.Element {
  return (
    <div class={`field${large ? " field-large" : ""}${error ? " field-wrong" : ""}`}>
      <label class="field-label" for={id}>
        {label}
      </label>
      {children}
      <span id={`${id}-told`}>
        {hint ? <span class="field-hint">{hint}</span> : null}
        {error ? <span class="field-error">{error}</span> : null}
      </span>
    </div>
  );
}
