/** The rows as they will be kept: what is wrong first, cell by cell with a field to put it right, then changes, then new. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Fate, Line, Settings } from "@/services/lists/spec";
import { TextField } from "@/ui/parts/forms";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { words, wrongCell } from "@/ui/text/lists";
import type { ListForm, Reading } from "./reading";
import { figureOf, nameOf, noteOf } from "./shown";

interface Props {
  readonly form: ListForm;
  readonly reading: Reading;
  readonly onChange: (form: ListForm) => void;
}

const PAGE = 25;
const ORDER: readonly Fate[] = ["change", "new", "there"];

export function Preview({ form, reading, onChange }: Props): JSX.Element {
  const [shown, setShown] = useState(PAGE);
  const say = (said: Settings) => onChange({ ...form, said: { ...form.said, ...said } });
  const { lines, counts } = reading;
  const mended = mendedIn(form);
  // a row that was put right stays where it was, with its fields: more of it may have to be typed
  const first = lines.filter(({ fate, row }) => fate === "wrong" || mended.has(row.number));
  const rest = ORDER.flatMap((fate) => lines.filter((one) => one.fate === fate && !first.includes(one)));
  const told = [...first, ...rest];
  const wrong = lines.filter((one) => one.fate === "wrong" && !one.left);
  const leave = (list: readonly Line[], left: boolean) =>
    say({ left: { ...form.said.left, ...Object.fromEntries(list.map(({ row }) => [row.number, left])) } });
  return (
    <Section title={words.preview}>
      <p role="status">{words.counts(counts)}</p>
      <p class="hint">{words.leave}</p>
      {wrong.length > 1 ? <Row label={words.leaveWrong} onTouch={() => leave(wrong, true)} /> : null}
      {told.slice(0, shown).map((line) => (
        <OneLine
          key={line.row.number}
          line={line}
          reading={reading}
          mended={mended.get(line.row.number) ?? NONE}
          onLeave={() => leave([line], !line.left)}
          onMend={(column, text) =>
            say({ cells: { ...form.said.cells, [`${line.row.number}:${column}`]: text } })
          }
        />
      ))}
      {told.length > shown ? (
        <Row
          label={words.more(Math.min(told.length - shown, 4 * PAGE))}
          onTouch={() => setShown(shown + 4 * PAGE)}
        />
      ) : null}
    </Section>
  );
}

type Mended = ReadonlyMap<number, string>;
const NONE: Mended = new Map();

/** Row -> column -> what was typed there to put it right. */
function mendedIn({ said }: ListForm): Map<number, Mended> {
  const found = new Map<number, Mended>();
  for (const [key, text] of Object.entries(said.cells ?? {})) {
    const [row = 0, column = 0] = key.split(":").map(Number);
    found.set(row, new Map([...(found.get(row) ?? NONE), [column, text]]));
  }
  return found;
}

interface LineProps {
  readonly line: Line;
  readonly reading: Reading;
  readonly mended: Mended;
  readonly onLeave: () => void;
  readonly onMend: (column: number, text: string) => void;
}

function OneLine({ line, reading, mended, onLeave, onMend }: LineProps): JSX.Element {
  const { left, row } = line;
  const note = [words.row(row.number), noteOf(line, reading), left ? words.take : ""];
  return (
    <div class={left ? "list-left" : ""}>
      <Row
        label={nameOf(line, reading)}
        figure={figureOf(line, reading)}
        note={note.filter(Boolean).join(" · ")}
        onTouch={onLeave}
      />
      {left ? null : <Mending {...{ line, reading, mended, onMend }} />}
    </div>
  );
}

/** What is wrong with the row: a field for each cell, a sentence for what it has no cell for. */
function Mending({ line, reading, mended, onMend }: Omit<LineProps, "onLeave">): JSX.Element {
  const { row, errors } = line;
  const columns = new Set([...errors.map((one) => one.column), ...mended.keys()]);
  return (
    <>
      {errors
        .filter((one) => one.column < 0)
        .map((one) => (
          <span key={one.field.name} class="field-error">
            {wrongCell(one)}
          </span>
        ))}
      {reading.layout.columns
        .filter(({ index, field }) => field && columns.has(index))
        .map(({ index, field }) => {
          const error = errors.find((one) => one.column === index);
          return (
            <TextField
              key={index}
              label={`${words.row(row.number)}, ${field!.label}`}
              value={mended.get(index) ?? row.cells[index] ?? ""}
              error={error ? wrongCell(error) : null}
              onChange={(text) => onMend(index, text)}
            />
          );
        })}
    </>
  );
}
