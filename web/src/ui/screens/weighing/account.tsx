/** Where the kilograms are: lines, a rule, and the total that they add up to. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import { type Account, accountOf, daysOf, wholeLines } from "@/services/weighed";
import type { BookView } from "@/ui/parts/live";
import { Section } from "@/ui/parts/section";
import { dayOf, figure, signed, twoSided } from "@/ui/text/figures";
import { words } from "@/ui/text/weighed";
import { authorOf, nameOf } from "./whose";
import "./weighed.css";

interface Props {
  readonly view: BookView;
  readonly entry: Entry;
}

type Line = Account["lines"][number];

export function KilogramAccount({ view, entry }: Props): JSX.Element | null {
  const [chosen, choose] = useState<string | null>(null);
  const { days, first } = useMemo(() => daysOf(view.book, entry.body.at), [view.book, entry]);
  const day = chosen !== null && days.includes(chosen) ? chosen : first;
  const found = useMemo(() => accountOf(view.book, entry.id, day), [view.book, entry.id, day]);
  if (!found) return null;
  return (
    <Section title={words.account}>
      {days.length > 1 ? (
        <label class="field as-of">
          <span class="field-label">{words.asOf}</span>
          <select value={day} onChange={(event) => choose(event.currentTarget.value)}>
            {days.map((one) => (
              <option key={one} value={one}>
                {words.day(one)}
              </option>
            ))}
          </select>
        </label>
      ) : null}
      <Column view={view} found={found} day={dayOf(entry.body.at, entry.body.zone)} />
      <p class="hint">{words.accountHint}</p>
    </Section>
  );
}

interface ColumnProps {
  readonly view: BookView;
  readonly found: Account;
  readonly day: string;
}

function Column({ view, found, day }: ColumnProps): JSX.Element {
  const { kg, total_kg } = wholeLines(found);
  return (
    <table class="account">
      <tbody>
        {found.lines.map((line, i) => (
          <tr key={`${line.code} ${line.author} ${line.record_ids[0]}`}>
            <th scope="row">
              {labelOf(view, line)}
              {noteOf(view, line)}
            </th>
            <td>{line.code === "bridge" ? "" : i === 0 ? figure(kg[i]!) : signed(kg[i]!)}</td>
            <td class="account-reach">±&nbsp;{figure(twoSided(line.u_kg))}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{words.total(day)}</th>
          <td>{figure(total_kg)}</td>
          <td class="account-reach" />
        </tr>
      </tfoot>
    </table>
  );
}

function labelOf(view: BookView, { code, author, record_ids }: Line): string {
  const label = words.lines[code];
  if (label === undefined) return words.tank(code, nameOf(view, record_ids[0] ?? ""));
  return author === null ? label : words.by(label, authorOf(view, author));
}

function noteOf(view: BookView, { code, record_ids }: Line): JSX.Element | null {
  if (words.lines[code] === undefined || code === "base" || record_ids.length === 0) return null;
  // who travels is not told to everyone who reads a book
  const known = record_ids.map((id) => nameOf(view, id)).filter((name) => name !== words.nameless);
  return <small>{known.length > 0 ? words.names(known) : words.unnamed(record_ids.length)}</small>;
}
