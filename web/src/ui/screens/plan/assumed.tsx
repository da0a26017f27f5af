/** Every default that the plan rests on: touched, the records that it stands for, and the way to say it there. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { assumedIn } from "@/services/assumed";
import type { Planned } from "@/services/plan";
import type { BookView } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/assumed";
import { KINDS } from "./fields";
import { labelOf, rowsOf } from "./lines";

interface Props {
  readonly view: BookView;
  readonly found: Planned | null;
}

export function AssumedList({ view, found }: Props): JSX.Element | null {
  const [open, setOpen] = useState<string | null>(null);
  const list = useMemo(() => {
    const blanks = (found?.missing ?? []).filter((one) => one.field !== "level");
    const missing = blanks.length > 0 ? [{ code: "missing", value: null, u: null, blanks }] : [];
    return [...missing, ...assumedIn(view.book)];
  }, [view.book, found?.missing]);
  return (
    <Section title={words.title}>
      <p class="hint">{words.hint}</p>
      {list.map(({ code, value, u, blanks }) => (
        <div key={`${code} ${u}`}>
          <button
            type="button"
            class="row row-touch"
            aria-expanded={open === `${code} ${u}`}
            onClick={() => setOpen(open === `${code} ${u}` ? null : `${code} ${u}`)}
          >
            <span class="row-label">{words.say(code, value, u)}</span>
            <span class="row-figure">{blanks.length}</span>
          </button>
          {open === `${code} ${u}` ? (
            <div class="plan-in-place">
              {blanks.map((blank) => (
                <BlankRow key={blank.record_id + blank.field} view={view} blank={blank} />
              ))}
            </div>
          ) : null}
        </div>
      ))}
    </Section>
  );
}

interface BlankProps {
  readonly view: BookView;
  readonly blank: ReturnType<typeof assumedIn>[number]["blanks"][number];
}

function BlankRow({ view, blank: { record_id, kind, field } }: BlankProps): JSX.Element | null {
  const row = rowsOf(view, kind).find((one) => one.id === record_id);
  const { first, more } = KINDS[kind]!;
  const spec = [...first, ...more].find((one) => one.name === field);
  if (!row) return null;
  const may = spec !== undefined && view.role !== "co_driver";
  return (
    <Row
      label={labelOf(kind, row.body)}
      {...(spec ? { note: spec.label } : {})}
      {...(may ? { to: `/b/${view.id}/plan/${kind}/${record_id}/${field}` } : {})}
    />
  );
}
