/** Items, tanks and seats as lists that are edited in place: a table on a wide screen, rows that open on a phone. */
import type { JSX } from "preact";
import type { Row as Entry } from "@/services/answers";
import type { BookView } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { useWide } from "@/ui/parts/wide";
import { words as catalogue } from "@/ui/text/catalogue";
import { words as lists } from "@/ui/text/lists";
import { words } from "@/ui/text/plan";
import type { Picked } from "./bench";
import { LISTED } from "./cells";
import type { Edits } from "./edits";
import { KINDS } from "./fields";
import { Grid } from "./grid";
import { rowsOf } from "./lines";
import { List } from "./list";
import { type Cells, useCells } from "./typing";
import "./plan.css";

export interface TablesProps {
  readonly view: BookView;
  readonly edits: Edits;
  readonly picked: Picked | null;
  readonly onPick: (id: string | null) => void;
}

export function Tables(props: TablesProps): JSX.Element {
  const { view } = props;
  const wide = useWide(60);
  const cells = useCells(view, props.edits, "plan-cell");
  const mayEdit = view.role !== "co_driver";
  return (
    <>
      {LISTED.map((kind) => {
        const rows = rowsOf(view, kind);
        const spec = KINDS[kind]!;
        const path = `/b/${view.id}/plan/${kind}`;
        const listing = { kind, rows, path, cells, mayEdit, ...props };
        return (
          <Section key={kind} title={words.kinds[kind]!}>
            {rows.length === 0 ? <p class="hint">{words.empty[kind]}</p> : null}
            {rows.length === 0 ? null : wide ? <Grid {...listing} /> : <List {...listing} />}
            {kind === "item" && rows.length > 0 ? <p class="hint">{words.shares}</p> : null}
            {mayEdit ? <Row label={spec.add} to={`${path}/new`} /> : null}
            {kind === "item" ? <Row label={catalogue.link} to={`/b/${view.id}/catalogue`} /> : null}
            {kind === "item" ? <Row label={lists.title} to={`/b/${view.id}/import`} /> : null}
          </Section>
        );
      })}
    </>
  );
}

export interface Listing extends TablesProps {
  readonly kind: string;
  readonly rows: readonly Entry[];
  readonly path: string;
  readonly cells: Cells;
  readonly mayEdit: boolean;
}
