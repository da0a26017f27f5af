/** One kind of record as a list, each row with the way to its form. */
import type { JSX } from "preact";
import type { BookView } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/plan";
import { KINDS } from "./fields";
import { figureOf, labelOf, noteOf, rowsOf } from "./lines";

export function KindList({ view, kind }: { readonly view: BookView; readonly kind: string }): JSX.Element {
  const rows = rowsOf(view, kind);
  const path = `/b/${view.id}/plan/${kind}`;
  const spec = KINDS[kind]!;
  return (
    <Section title={words.kinds[kind] ?? spec.title}>
      {rows.map((row) => (
        <Row
          key={row.id}
          label={labelOf(kind, row.body)}
          figure={figureOf(kind, row.body)}
          note={noteOf(kind, row.body, view.book)}
          to={`${path}/${row.id}`}
        />
      ))}
      {rows.length === 0 && spec.add ? <p class="hint">{words.empty[kind]}</p> : null}
      {kind === "plate" ? <Row label={words.whichBind} to={`/b/${view.id}/plates`} /> : null}
      {spec.add && view.role !== "co_driver" ? <Row label={spec.add} to={`${path}/new`} /> : null}
    </Section>
  );
}
