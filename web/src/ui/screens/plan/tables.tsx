/** Items, tanks and seats as lists that are edited in place: a table on a wide screen, rows that open on a phone. */
import type { JSX } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import { type BookView, useDraft } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { whyNot } from "@/ui/text/forms";
import { words } from "@/ui/text/plan";
import { columnsOf, fieldOf, LISTED, opened, readCell, type Trouble, type Typing } from "./cells";
import type { Edits } from "./edits";
import { type FieldSpec, KINDS } from "./fields";
import type { FormValue } from "./form";
import { Grid } from "./grid";
import { rowsOf } from "./lines";
import { List } from "./list";
import { useWide } from "./wide";
import "./plan.css";

/** The cell that is typed in, and what can be done with it. */
export interface Cells {
  readonly typing: Typing | null;
  readonly trouble: Trouble | null;
  readonly act: Acts;
}

export interface Acts {
  /** Opens a cell; with a value, as somebody has begun to type it. */
  readonly open: (kind: string, row: Entry, column: FieldSpec, value?: FormValue) => void;
  readonly change: (value: FormValue) => void;
  /** Keeps what stands in the cell; false where it cannot be read, and the cell stays open. */
  readonly commit: () => boolean;
  readonly cancel: () => void;
}

export interface TablesProps {
  readonly view: BookView;
  readonly edits: Edits;
  readonly picked: string | null;
  readonly onPick: (id: string | null) => void;
}

export function Tables(props: TablesProps): JSX.Element {
  const { view } = props;
  const wide = useWide();
  const cells = useCells(props);
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

/** What is typed into one cell: kept as a draft while it is typed, and as one edit when the cell is left. */
function useCells({ view, edits }: TablesProps): Cells {
  const key = `plan-cell:${view.id}`;
  const draft = useDraft<Typing | null>(key, null);
  const [typing, setTyping] = useState<Typing | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const now = useRef<Typing | null>(null);
  const given = useRef({ view, edits, draft });
  given.current = { view, edits, draft };
  const show = (next: Typing | null, wrong: Trouble | null = null) => {
    now.current = next;
    setTyping(next);
    setTrouble(wrong);
  };
  useEffect(() => {
    if (draft.ready && draft.value) show(draft.value);
  }, [draft.ready]);
  const act = useMemo((): Acts => {
    const drop = async () => {
      if (!now.current) await given.current.draft.drop();
    };
    const save = async (cell: Typing, row: Entry, change: Entry["body"]) => {
      const { label } = columnOf(cell, given.current.view);
      try {
        await given.current.edits.put(cell.kind, row, change, label, { base_rev: cell.rev, draft: key });
        await drop();
      } catch (error) {
        show(cell, { message: whyNot(error), asks: [] });
      }
    };
    const commit = () => {
      const cell = now.current;
      const row = cell && rowsOf(given.current.view, cell.kind).find((one) => one.id === cell.id);
      if (!cell || !row) return true;
      const read = readCell(columnOf(cell, given.current.view), cell.value, row.body);
      if (read.trouble) {
        setTrouble(read.trouble);
        return false;
      }
      show(null);
      void (read.change ? save(cell, row, read.change) : drop());
      return true;
    };
    return {
      commit,
      open: (kind: string, row: Entry, column: FieldSpec, value?: FormValue) => {
        if (!commit()) return;
        const { id, rev, body } = row;
        show({ kind, id, rev, name: column.name, value: value ?? opened(column, body) });
        if (value !== undefined) given.current.draft.change(now.current);
      },
      change: (value: FormValue) => {
        if (!now.current) return;
        show({ ...now.current, value });
        given.current.draft.change(now.current);
      },
      cancel: () => {
        show(null);
        void drop();
      },
    };
  }, [key]);
  return { typing, trouble, act };
}

function columnOf({ kind, name }: Typing, { book }: BookView): FieldSpec {
  return columnsOf(kind, book).find((one) => one.name === name) ?? fieldOf(kind, name);
}
