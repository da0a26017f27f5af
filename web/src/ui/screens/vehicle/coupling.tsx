/** One row per trailer: whether it is coupled, and one touch to change it. */
import type { JSX } from "preact";
import { useRef, useState } from "preact/hooks";
import type { State } from "@/services/answers";
import { type BookView, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { words as forms, whyNot } from "@/ui/text/forms";
import { words } from "@/ui/text/vehicle";

interface CouplingProps {
  readonly view: BookView;
  readonly state: State;
}

export function Coupling({ view, state }: CouplingProps): JSX.Element | null {
  const { records } = useServices();
  const [trouble, setTrouble] = useState<string | null>(null);
  const busy = useRef(false);
  const log = (id: string, aboard: boolean) =>
    records.log(view.id, "aboard", { subject: "trailer", subject_id: id, aboard });
  const change = async (id: string, on: boolean) => {
    if (busy.current) return;
    busy.current = true;
    try {
      // only one is towed: another one that is still on the log comes off
      for (const other of on ? state.trailers_on : []) await log(other, false);
      await log(id, on);
      setTrouble(null);
    } catch (error) {
      setTrouble(forms.notSaved(whyNot(error)));
    } finally {
      busy.current = false;
    }
  };
  if (view.book.trailers.length === 0) return null;
  return (
    <div>
      {trouble ? <Notice tone="warn">{trouble}</Notice> : null}
      {view.book.trailers.map(({ id, body }) => {
        const on = state.trailers_on.includes(id);
        const may = view.role !== "fitter";
        return (
          <Row
            key={id}
            label={words.trailer(body.name)}
            said={on ? words.coupled : words.notCoupled}
            {...(may
              ? { note: on ? words.uncouple : words.couple, onTouch: () => void change(id, !on) }
              : {})}
          />
        );
      })}
    </div>
  );
}
