/** Takes back the last edit of this visit, or does it again: buttons that name it, and the keys that people know. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { Action } from "@/ui/parts/action";
import type { BookView } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { words } from "@/ui/text/record";
import type { Edits } from "./edits";

interface Props {
  readonly view: BookView;
  readonly edits: Edits;
}

export function Undo({ view, edits }: Props): JSX.Element | null {
  const [said, setSaid] = useState<string | null>(null);
  const last = edits.steps.value.at(-1);
  const next = edits.undone.value.at(-1);
  const { vehicle, trailers, plates, items, tanks, seats, people, gone } = view.book;
  const rows = [
    ...(vehicle ? [vehicle] : []),
    ...trailers,
    ...plates,
    ...items,
    ...tanks,
    ...seats,
    ...people,
  ];
  const all = [...rows, ...gone];
  const undo = async () => setSaid(await edits.undo(all));
  const redo = async () => setSaid(await edits.redo(all));
  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      const typing = (event.target as Element | null)?.closest?.("input, select, textarea");
      const way = typing ? null : wayOf(event);
      if (!way) return;
      event.preventDefault();
      void (way === "undo" ? undo() : redo());
    };
    document.addEventListener("keydown", key);
    return () => document.removeEventListener("keydown", key);
  });
  if (!last && !next && !said) return null;
  return (
    <>
      {said ? <Notice tone="warn">{said}</Notice> : null}
      {last || next ? (
        <div class="actions plan-undo">
          {last ? <Action kind="plain" label={words.undo(last.label)} onTouch={undo} /> : null}
          {next ? <Action kind="plain" label={words.redo(next.label)} onTouch={redo} /> : null}
        </div>
      ) : null}
    </>
  );
}

/** Ctrl+Z; Ctrl+Shift+Z or Ctrl+Y: with the command key where that is the custom. */
function wayOf({ key, shiftKey, ctrlKey, metaKey }: KeyboardEvent): "undo" | "redo" | null {
  if (!ctrlKey && !metaKey) return null;
  const letter = key.toLowerCase();
  if (letter === "y" && !shiftKey) return "redo";
  return letter !== "z" ? null : shiftKey ? "redo" : "undo";
}
