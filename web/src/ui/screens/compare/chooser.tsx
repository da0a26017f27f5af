/** Which plan: a day on which it was edited or now, with what is on order or without, and the trailer that is on. */
import type { JSX } from "preact";
import type { Row } from "@/services/answers";
import type { Version } from "@/services/compare";
import { ChoiceField } from "@/ui/parts/forms";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/compare";

interface Props {
  readonly title: string;
  readonly version: Version;
  readonly days: readonly string[];
  readonly trailers: readonly Row[];
  readonly onChange: (version: Version) => void;
}

export function Chooser({ title, version, days, trailers, onChange }: Props): JSX.Element {
  return (
    <Section title={title}>
      <label class="field compare-day">
        <span class="field-label">{words.asOf}</span>
        <select
          value={version.day ?? ""}
          onChange={(event) => onChange({ ...version, day: event.currentTarget.value || null })}
        >
          <option value="">{words.now}</option>
          {[...days].reverse().map((day) => (
            <option key={day} value={day}>
              {words.day(day)}
            </option>
          ))}
        </select>
      </label>
      <ChoiceField
        label={words.stage}
        value={version.ordered ? "ordered" : "fitted"}
        options={[
          { value: "fitted", label: words.fitted },
          { value: "ordered", label: words.ordered },
        ]}
        onChange={(value) => onChange({ ...version, ordered: value === "ordered" })}
      />
      {trailers.length > 0 ? (
        <ChoiceField
          label={words.trailer}
          value={version.trailer_id ?? ""}
          options={[
            { value: "", label: words.noTrailer },
            ...trailers.map(({ id, body }) => ({ value: id, label: body.name as string })),
          ]}
          onChange={(id) => onChange({ ...version, trailer_id: id || null })}
        />
      ) : null}
    </Section>
  );
}
