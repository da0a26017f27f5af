/** Takes back the last edit of this visit: the button that names it, and the keys that people know. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { Action } from "@/ui/parts/action";
import type { BookView } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { words } from "@/ui/text/plan";
import type { Edits } from "./edits";

interface Props {
  readonly view: BookView;
  readonly edits: Edits;
}

export function Undo({ view, edits }: Props): JSX.Element | null {
  const [said, setSaid] = useState<string | null>(null);
  const last = edits.steps.value.at(-1);
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
  const undo = async () => setSaid(await edits.undo([...rows, ...gone]));
  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      const typing = (event.target as Element | null)?.closest?.("input, select, textarea");
      if (typing || event.shiftKey || !(event.ctrlKey || event.metaKey) || event.key !== "z") return;
      event.preventDefault();
      void undo();
    };
    document.addEventListener("keydown", key);
    return () => document.removeEventListener("keydown", key);
  });
  if (!last && !said) return null;
  return (
    <>
      {said ? <Notice tone="warn">{said}</Notice> : null}
      {last ? (
        <div class="actions plan-undo">
          <Action kind="plain" label={words.undo(last.label)} onTouch={undo} />
        </div>
      ) : null}
    </>
  );
}
