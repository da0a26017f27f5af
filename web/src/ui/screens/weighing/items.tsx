/** What the weighings say of single items: plan, after weighing, and how much of the doubt they removed. */
import type { JSX } from "preact";
import type { Book, Comparison } from "@/services/answers";
import { Section } from "@/ui/parts/section";
import { twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/weighing";
import { partName } from "./names";

interface Props {
  readonly items: Comparison["items"];
  readonly book: Book;
}

const SAYS_NOTHING = 0.1; // below this share of the variance removed, a weighing says nothing about an item

export function ItemTable({ items, book }: Props): JSX.Element {
  const told = items.filter((one) => one.told >= SAYS_NOTHING).sort((a, b) => b.told - a.told);
  return (
    <Section title={words.items}>
      {told.length === 0 ? <p>{words.itemsNothing}</p> : <Told told={told} book={book} />}
      {told.length > 0 && told.length < items.length ? (
        <p class="hint">{words.itemsRest(items.length - told.length)}</p>
      ) : null}
    </Section>
  );
}

function Told({ told, book }: { readonly told: Comparison["items"]; readonly book: Book }): JSX.Element {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{words.item}</th>
          <th scope="col">{words.plan}</th>
          <th scope="col">{words.now}</th>
          <th scope="col">{words.told}</th>
        </tr>
      </thead>
      <tbody>
        {told.map((one) => (
          <tr key={one.id}>
            <th scope="row">{partName(book, one.id)}</th>
            <td>{withReach(one.plan_kg, twoSided(one.plan_u_kg))}</td>
            <td>{withReach(one.now_kg, twoSided(one.now_u_kg))}</td>
            <td>{`${Math.round(one.told * 100)}\u00a0%`}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
