import type { ComponentChildren, JSX } from "preact";
import { useRef } from "preact/hooks";

export interface FormProps {
  /** What the Enter key, or "go" on a phone's keys, does in a field: the same as the main button. */
  readonly onEnter: () => unknown;
  readonly children: ComponentChildren;
}

export function Form({ onEnter, children }: FormProps): JSX.Element {
  const busy = useRef(false);
  const key = async (event: KeyboardEvent) => {
    if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement) || event.isComposing) return;
    event.preventDefault();
    if (busy.current) return;
    busy.current = true;
    try {
      await onEnter();
    } finally {
      busy.current = false;
    }
  };
  return (
    <form onKeyDown={key} onSubmit={(event) => event.preventDefault()}>
      {children}
    </form>
  );
}
