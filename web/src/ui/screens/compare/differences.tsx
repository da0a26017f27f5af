/** Every record between the two plans with what it does to each axle: first plan and lines add up to the second. */
import type { JSX } from "preact";
import type { Book } from "@/services/answers";
import type { Compared, Line as Entry } from "@/services/compare";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/compare";
import { figure, signed } from "@/ui/text/figures";

interface Props {
  readonly book: Book;
  readonly found: Compared;
}

export function Differences({ book, found }: Props): JSX.Element | null {
  const { rows, lines, kg, sides } = found;
  if (sides.some((one) => one.loads === null)) return null;
  if (lines.length === 0) return <p>{words.same}</p>;
  return (
    <Section title={words.between}>
      <p class="hint">{words.hint}</p>
      <table class="compare-lines">
        <thead>
          <tr>
            <th scope="col">{words.what}</th>
            {rows.map((row) => (
              <th key={row} scope="col">
                {words.rows[row]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <Line label={words.sides[0]} told={kg.first.map((one) => figure(one))} />
          {lines.map((line, i) => (
            <Line
              key={`${line.kind} ${line.record_id}`}
              label={words.withThings(nameOf(book, line), line.things)}
              note={words.line(line)}
              told={kg.lines[i]!.map((one) => (one === 0 ? "0" : signed(one)))}
            />
          ))}
        </tbody>
        <tfoot>
          <Line label={words.sides[1]} told={kg.second.map((one) => figure(one))} />
        </tfoot>
      </table>
    </Section>
  );
}

interface LineProps {
  readonly label: string;
  readonly note?: string;
  readonly told: readonly string[];
}

function Line({ label, note, told }: LineProps): JSX.Element {
  return (
    <tr>
      <th scope="row">
        {label}
        {note ? <small>{note}</small> : null}
      </th>
      {told.map((text, k) => (
        <td key={k}>{text}</td>
      ))}
    </tr>
  );
}

/** Also of a record since deleted; people whom a reader may not see have no name. */
function nameOf(book: Book, { kind, record_id }: Entry): string {
  if (kind === "vehicle") return words.vehicle;
  const rows = [...book.items, ...book.tanks, ...book.people, ...book.seats, ...book.trailers, ...book.gone];
  return rows.find((row) => row.id === record_id)?.body.name || words.nameless;
}
