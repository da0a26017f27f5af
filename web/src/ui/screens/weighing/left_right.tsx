/** Left and right, where wheels were read: each wheel and both sides, beside the plan where it knows the tracks. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { type Sides, sidesOf, type WheelLoad } from "@/services/sides";
import type { BookView } from "@/ui/parts/live";
import { Section } from "@/ui/parts/section";
import { twoSided, withReach } from "@/ui/text/figures";
import { ratingName } from "@/ui/text/ratings";
import { words as tableWords } from "@/ui/text/weighing";
import { words } from "@/ui/text/wheels";

interface Props {
  readonly view: BookView;
  readonly weighing: string;
}

export function LeftRight({ view, weighing }: Props): JSX.Element | null {
  const found = useMemo(() => sidesOf(view.book, weighing), [view.book, weighing]);
  if (!found) return null;
  return (
    <Section title={words.title}>
      <Table found={found} />
      <p class="hint">{words.hint}</p>
      <p class="hint">{found.frame === null ? words.noPlan : words.frame[found.frame]}</p>
    </Section>
  );
}

function Table({ found }: { readonly found: Sides }): JSX.Element {
  const planned = found.frame !== null;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{tableWords.row}</th>
          {planned ? <th scope="col">{tableWords.planned}</th> : null}
          <th scope="col">{tableWords.weighed}</th>
        </tr>
      </thead>
      <tbody>
        {found.sides.map((one) => (
          <Load key={one.row} label={words.side[one.row] ?? one.row} load={one} planned={planned} />
        ))}
        {found.wheels.map((one) => (
          <Load key={one.row} label={ratingName(one.row, null)} load={one} planned={planned} />
        ))}
      </tbody>
    </table>
  );
}

interface LoadProps {
  readonly label: string;
  readonly load: WheelLoad;
  readonly planned: boolean;
}

function Load({ label, load, planned }: LoadProps): JSX.Element {
  return (
    <tr>
      <th scope="row">{label}</th>
      {planned ? (
        <td>{load.planned ? withReach(load.planned.kg, twoSided(load.planned.u_kg)) : "?"}</td>
      ) : null}
      <td>{withReach(load.weighed_kg, twoSided(load.weighed_u_kg))}</td>
    </tr>
  );
}
