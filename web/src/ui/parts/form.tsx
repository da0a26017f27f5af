import type { ComponentChildren, JSX } from "preact";
import { useRef } from "preact/hooks";

export interface FormProps {
  /** What the Enter key, or "go" on a phone's keys, does in a field: the same as the main button. */
  readonly onEnter: () => unknown;
  /** A touch beside the fields leaves the focus, and so the phone's keys, where they are. */
  readonly keepFocus?: boolean;
  readonly children: ComponentChildren;
}

export function Form({ onEnter, keepFocus = false, children }: FormProps): JSX.Element {
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
  const hold = (event: MouseEvent) => {
    const field = event.target instanceof Element && event.target.closest("input, select, textarea");
    if (keepFocus && !field) event.preventDefault();
  };
  return (
    <form onKeyDown={key} onMouseDown={hold} onSubmit={(event) => event.preventDefault()}>
      {children}
    </form>
  );
}
