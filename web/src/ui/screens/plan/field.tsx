/** One field of a plan record as the control that fits it. */
import type { JSX } from "preact";
import { ChoiceField, NumberField, TextField } from "@/ui/parts/forms";
import type { BookView } from "@/ui/parts/live";
import { words as answers } from "@/ui/text/forms";
import { words } from "@/ui/text/record";
import type { Choice } from "@/units/typed";
import { unitsOf } from "@/units/units";
import { type FormValue, isTyped } from "./form";
import { Slots } from "./slots";
import type { FieldSpec } from "./spec";

interface FieldProps {
  readonly spec: FieldSpec;
  readonly view: BookView;
  /** The record is on a trailer, where places count from the coupling. */
  readonly onTrailer: boolean;
  readonly value: FormValue;
  readonly error: string | undefined;
  /** What holds as the form stands. */
  readonly said?: string | undefined;
  /** What a typed figure might mean, to choose from. */
  readonly ask: readonly Choice[] | undefined;
  readonly onChange: (name: string, value: FormValue) => void;
}

export function Field(props: FieldProps): JSX.Element | null {
  const { spec, view, value, error = "", onChange } = props;
  const common = { label: spec.label, error: error || null, ...(props.said ? { hint: props.said } : {}) };
  const put = (next: FormValue) => onChange(spec.name, next);
  if (spec.type === "number") {
    const typed = isTyped(value) ? value : { text: "", unit: unitsOf(spec.dimension)[0]! };
    const units = spec.dimension === "fraction" ? [] : unitsOf(spec.dimension);
    const ask = props.ask ?? null;
    return <NumberField {...common} {...hintOf(props)} {...{ units, ask }} value={typed} onChange={put} />;
  }
  if (spec.type === "slots")
    return <Slots {...common} view={view} value={Array.isArray(value) ? value : []} onChange={put} />;
  if (spec.type === "yes_no") {
    const third = "blank" in spec && spec.blank ? [{ value: "", label: spec.blank }] : [];
    const options = [{ value: "yes", label: answers.yes }, { value: "no", label: answers.no }, ...third];
    const answer = typeof value !== "boolean" ? "" : value ? "yes" : "no";
    const say = (one: string) => put(one === "" ? null : one === "yes");
    return <ChoiceField {...common} value={answer} options={options} onChange={say} />;
  }
  const text = typeof value === "string" ? value : "";
  if (spec.type === "choice") {
    const options = spec.options.map(([v, label]) => ({ value: v, label }));
    return <ChoiceField {...common} value={text} options={options} onChange={put} />;
  }
  if (RECORDS.includes(spec.type)) {
    const options = recordsFor(props);
    if (options.length === 1 && spec.type === "grey") return <p class="hint">{words.noGrey}</p>;
    if (options.length === 1 && spec.type === "trailer") return null;
    return <ChoiceField {...common} value={text} options={options} onChange={(id) => put(id || null)} />;
  }
  const kind = spec.type === "day" ? { kind: "date" as const } : {};
  return <TextField {...common} {...hintOf(props)} value={text} onChange={put} {...kind} />;
}

/** Fields that name another record of the book. */
const RECORDS: readonly string[] = ["seat", "person", "trailer", "grey"];

function hintOf({ spec, onTrailer }: FieldProps): { hint?: string } {
  const usual = "hint" in spec ? spec.hint : undefined;
  const hint = onTrailer && spec.type === "number" ? (spec.on_trailer ?? usual) : usual;
  return hint ? { hint } : {};
}

/** The book's records to choose from, and first the choice of none. */
function recordsFor({ spec, view }: FieldProps): { value: string; label: string }[] {
  const { seats, people, trailers, tanks } = view.book;
  const grey = tanks.filter(({ body }) => body.holds === "grey");
  const rows = { seat: seats, person: people, grey }[spec.type as string] ?? trailers;
  const none = spec.type === "trailer" ? spec.none : spec.type === "grey" ? words.runsOut : words.none;
  const named = rows.map((one) => ({ value: one.id, label: one.body.name as string }));
  return [{ value: "", label: none }, ...named];
}
