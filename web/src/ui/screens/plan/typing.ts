/** One cell that is typed in: kept as a draft meanwhile, and as one edit when it is left. */
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Row } from "@/services/answers";
import { type BookView, type DraftState, useDraft } from "@/ui/parts/live";
import { whyNot } from "@/ui/text/forms";
import { fieldOf, opened, readCell, type Trouble, type Typing } from "./cells";
import type { Edits } from "./edits";
import type { FieldSpec } from "./fields";
import type { FormValue } from "./form";
import { rowsOf } from "./lines";
import { ON } from "./on";

/** The cell that is typed in, and what can be done with it. */
export interface Cells {
  readonly typing: Typing | null;
  readonly trouble: Trouble | null;
  readonly act: Acts;
}

export interface Acts {
  /** Opens a cell; with a value, as somebody has begun to type it. */
  readonly open: (kind: string, row: Row, column: FieldSpec, value?: FormValue) => void;
  readonly change: (value: FormValue) => void;
  /** Keeps what stands in the cell; false where it cannot be read, and the cell stays open. */
  readonly commit: () => boolean;
  readonly cancel: () => void;
}

export function useCells(view: BookView, edits: Edits, where: string): Cells {
  const key = `${where}:${view.id}`;
  const draft = useDraft<Typing | null>(key, null);
  const [typing, setTyping] = useState<Typing | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const now = useRef<Typing | null>(null);
  const given = useRef({ view, edits, draft, key });
  given.current = { view, edits, draft, key };
  const show = (next: Typing | null, wrong: Trouble | null = null) => {
    now.current = next;
    setTyping(next);
    setTrouble(wrong);
  };
  useEffect(() => {
    if (draft.ready && draft.value) show(draft.value);
  }, [draft.ready]);
  const act = useMemo(() => actsOf({ now: () => now.current, given: () => given.current, show }), [key]);
  return { typing, trouble, act };
}

interface Desk {
  readonly now: () => Typing | null;
  readonly given: () => {
    readonly view: BookView;
    readonly edits: Edits;
    readonly draft: DraftState<Typing | null>;
    readonly key: string;
  };
  readonly show: (next: Typing | null, wrong?: Trouble | null) => void;
}

function actsOf(desk: Desk): Acts {
  const { now, given, show } = desk;
  const type = (next: Typing) => {
    show(next);
    given().draft.change(next);
  };
  const drop = async () => {
    if (!now()) await given().draft.drop();
  };
  const commit = () => {
    const cell = now();
    const { view } = given();
    const row = cell && rowsOf(view, cell.kind).find((one) => one.id === cell.id);
    if (!cell || !row) return true;
    const read = readCell(columnOf(cell), cell.value, row.body);
    show(read.trouble ? cell : null, read.trouble);
    if (read.trouble) return false;
    void (read.change ? save(desk, cell, row, read.change).then(drop) : drop());
    return true;
  };
  return {
    commit,
    open: (kind, row, column, value) => {
      if (!commit()) return;
      const { id, rev, body } = row;
      const cell = { kind, id, rev, name: column.name };
      if (value === undefined) show({ ...cell, value: opened(column, body) });
      else type({ ...cell, value });
    },
    change: (value) => {
      const cell = now();
      if (cell) type({ ...cell, value });
    },
    cancel: () => {
      show(null);
      void drop();
    },
  };
}

async function save({ given, show }: Desk, cell: Typing, row: Row, change: Row["body"]): Promise<void> {
  const { edits, key } = given();
  const options = { base_rev: cell.rev, draft: key };
  try {
    await edits.put(cell.kind, row, change, columnOf(cell).label, options);
  } catch (error) {
    show(cell, { message: whyNot(error), asks: [] });
  }
}

function columnOf({ kind, name }: Typing): FieldSpec {
  return name === ON.name ? ON : fieldOf(kind, name);
}
