/** The fields of a form of which nothing is on a trailer, as far as they are asked. */
import type { JSX } from "preact";
import type { BookView } from "@/ui/parts/live";
import { Field } from "./field";
import { type Form, type FormErrors, isAsked, type Read } from "./form";
import type { FieldSpec } from "./spec";

interface Props {
  readonly view: BookView;
  readonly specs: readonly FieldSpec[];
  readonly value: Form;
  readonly errors: FormErrors;
  readonly asks: Read["asks"];
  readonly onChange: (value: Form) => void;
}

export function FieldList({ view, specs, value, errors, asks, onChange }: Props): JSX.Element {
  return (
    <>
      {specs
        .filter((field) => isAsked(field, value))
        .map((field) => (
          <Field
            key={field.name}
            spec={field}
            view={view}
            onTrailer={false}
            value={value[field.name] ?? null}
            error={asks[field.name] ? undefined : errors[field.name]}
            ask={asks[field.name]}
            onChange={(name, next) => onChange({ ...value, [name]: next })}
          />
        ))}
    </>
  );
}
