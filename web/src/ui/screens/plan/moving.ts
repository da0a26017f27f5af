/** One thing of the plan on its way along the vehicle: live while it is held, one edit when it is let go. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { Row } from "@/services/answers";
import type { BookView } from "@/ui/parts/live";
import { whyNot } from "@/ui/text/forms";
import { fieldOf, LISTED } from "./cells";
import type { Edits } from "./edits";
import { rowsOf } from "./lines";

export interface Moving {
  readonly id: string;
  readonly x_m: number;
  readonly touched: boolean;
  /** The revision that it started from. */
  readonly rev: string;
}

export interface Mover {
  readonly moving: Moving | null;
  readonly trouble: string | null;
  readonly take: (id: string) => void;
  readonly move: (id: string, x_m: number) => void;
  readonly drop: (keep: boolean) => void;
}

/** After the last of some arrow keys the move is kept as one edit. */
const PAUSE_MS = 900;

export function useMoving(view: BookView, edits: Edits): Mover {
  const [moving, setMoving] = useState<Moving | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const now = useRef<Moving | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const given = useRef({ view, edits });
  given.current = { view, edits };
  const show = (next: Moving | null) => {
    now.current = next;
    setMoving(next);
  };
  const shown = moving ? placed(view, moving.id) : null;
  useEffect(() => {
    // the page shows the record as it was left: the figures rest on it again
    if (moving && !moving.touched && shown && shown.row.rev !== moving.rev) show(null);
  }, [view]);
  useEffect(() => () => clearTimeout(timer.current), []);
  const drop = (keep: boolean) => {
    clearTimeout(timer.current);
    const last = now.current;
    const found = last && placed(given.current.view, last.id);
    if (!last || !found || !keep || found.row.body.x_m === last.x_m) return show(null);
    show({ ...last, touched: false });
    const { label } = fieldOf(found.kind, "x_m");
    const kept = given.current.edits.put(found.kind, found.row, placeOf(last.x_m), label, {
      base_rev: last.rev,
    });
    void kept.catch((error) => {
      show(null);
      setTrouble(whyNot(error));
    });
  };
  const begin = (id: string, x_m: number | null, touched: boolean) => {
    if (now.current && now.current.id !== id) drop(true);
    const found = placed(given.current.view, id);
    if (!found) return;
    const same = now.current?.id === id;
    setTrouble(null);
    show({ id, touched, x_m: x_m ?? found.row.body.x_m, rev: same ? now.current!.rev : found.row.rev });
  };
  return {
    moving,
    trouble,
    take: (id) => begin(id, null, true),
    move: (id, x_m) => {
      const touched = now.current?.touched ?? false;
      begin(id, x_m, touched);
      clearTimeout(timer.current);
      if (!touched) timer.current = setTimeout(() => drop(true), PAUSE_MS);
    },
    drop,
  };
}

/** The same record as typing it makes: to the centimetre, its digits and unit beside it. */
function placeOf(x_m: number): Row["body"] {
  return { x_m, as_typed: { x_m: [x_m.toFixed(2), "m"] } };
}

/** An item, tank or seat by its id. */
export function placed(view: BookView, id: string): { kind: string; row: Row } | null {
  for (const kind of LISTED) {
    const row = rowsOf(view, kind).find((one) => one.id === id);
    if (row) return { kind, row };
  }
  return null;
}
