/** Since last time: what came and went by the list, what the bridge says, and the difference of the two. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import { type Since, sinceOf, wholeSince } from "@/services/weighed";
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

const REACH_SHOWN_KG = 2; // a line of zeros with less ± than this says nothing

export function SinceLastTime({ view, entry }: Props): JSX.Element | null {
  const found = useMemo(() => sinceOf(view.book, entry.id), [view.book, entry.id]);
  const earlier = view.book.weighings.find((one) => one.id === found?.earlier_id);
  if (!found || !earlier) return null;
  const whole = wholeSince(found);
  const open = found.unexplained_kg.some((kg, k) => Math.abs(kg) > twoSided(found.unexplained_u_kg[k]!));
  return (
    <Section title={words.since}>
      <p class="hint">{words.sinceHint(dayOf(earlier.body.at, earlier.body.zone))}</p>
      <table class="since">
        <thead>
          <tr>
            <th scope="col">{words.thing}</th>
            {found.rows.map((row) => (
              <th key={row} scope="col">
                {words.rows[row]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {found.lines.map((line, i) => (
            <Line key={`${line.subject}${line.record_id}`} view={view} line={line} kg={whole.lines[i]!} />
          ))}
        </tbody>
        <tbody class="since-sums">
          <Sum label={words.listed} kg={whole.listed} u_kg={found.listed_u_kg} />
          <Sum label={words.bridged} kg={whole.weighed} u_kg={found.weighed_u_kg} />
          <Sum label={words.unexplained} kg={whole.unexplained} u_kg={found.unexplained_u_kg} />
        </tbody>
      </table>
      <p>{open ? words.beyond : words.within}</p>
    </Section>
  );
}

type Moved = Since["lines"][number];

interface LineProps {
  readonly view: BookView;
  readonly line: Moved;
  readonly kg: readonly number[];
}

function Line({ view, line, kg }: LineProps): JSX.Element | null {
  const { subject, how, author, u_kg } = line;
  if (kg.every((one) => one === 0) && u_kg.every((one) => twoSided(one) < REACH_SHOWN_KG)) return null;
  const note = words.how(subject, how, author === null ? null : authorOf(view, author));
  return (
    <tr>
      <th scope="row">
        {nameOf(view, line.record_id)}
        {note ? <small>{note}</small> : null}
      </th>
      <Figures kg={kg} u_kg={u_kg} />
    </tr>
  );
}

interface Summed {
  readonly kg: readonly number[];
  readonly u_kg: readonly number[];
}

function Sum({ label, ...figures }: Summed & { readonly label: string }): JSX.Element {
  return (
    <tr>
      <th scope="row">{label}</th>
      <Figures {...figures} />
    </tr>
  );
}

function Figures({ kg, u_kg }: Summed): JSX.Element {
  return (
    <>
      {kg.map((value, k) => (
        <td key={k}>
          {signed(value)}
          <small>±&nbsp;{figure(twoSided(u_kg[k]!))}</small>
        </td>
      ))}
    </>
  );
}
