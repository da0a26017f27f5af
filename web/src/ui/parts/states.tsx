/** Which state of the vehicle is meant, and what its tanks hold there. */
import type { JSX } from "preact";
import { words } from "@/ui/text/states";
import { ChoiceField } from "./forms";

interface StateProps {
  readonly trailers: readonly { readonly id: string; readonly body: { readonly name?: string } }[];
  /** "full", the trailer that is on then, or "now". */
  readonly value: string;
  /** Choices of a page's own, offered first. */
  readonly first?: readonly { readonly value: string; readonly label: string }[];
  readonly onChange: (value: string) => void;
}

export function StateField({ trailers, value, first = [], onChange }: StateProps): JSX.Element {
  const options = [
    ...first,
    { value: "full", label: words.full },
    ...trailers.map(({ id, body }) => ({ value: id, label: words.fullWith(body.name ?? "") })),
    { value: "now", label: words.asLogged },
  ];
  return <ChoiceField label={words.state} {...{ value, options, onChange }} />;
}

interface LevelsProps {
  /** Each rating at the levels that are worst for it. */
  readonly worst: boolean;
  readonly onChange: (worst: boolean) => void;
}

export function LevelsField({ worst, onChange }: LevelsProps): JSX.Element {
  return (
    <ChoiceField
      label={words.levels}
      value={worst ? "worst" : "stated"}
      options={[
        { value: "stated", label: words.asStated },
        { value: "worst", label: words.anyLevel },
      ]}
      hint={worst ? words.anyHint : ""}
      onChange={(value) => onChange(value === "worst")}
    />
  );
}
