/** The buttons in the lower half of the phone. A second touch within a second does nothing: gloves and bumps. */
import type { ComponentChildren, JSX } from "preact";
import { useRef, useState } from "preact/hooks";
import { whyNot, words } from "@/ui/text/forms";

export interface ActionProps {
  readonly label: string;
  readonly onTouch: () => unknown;
  readonly kind?: "primary" | "plain";
  readonly disabled?: boolean;
}

export function Action({ label, onTouch, kind = "primary", disabled = false }: ActionProps): JSX.Element {
  const busy = useRef(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const touch = async () => {
    if (busy.current) return;
    busy.current = true;
    setTrouble(null);
    try {
      await onTouch();
    } catch (error) {
      setTrouble(whyNot(error));
    } finally {
      busy.current = false;
    }
  };
  return (
    <>
      {trouble ? (
        <p class="field-error" role="alert">
          {words.notSaved(trouble)}
        </p>
      ) : null}
      <button
        type="button"
        class={kind === "plain" ? "action action-plain" : "action"}
        disabled={disabled}
        onClick={touch}
      >
        {label}
      </button>
    </>
  );
}

export function Actions({ children }: { readonly children: ComponentChildren }): JSX.Element {
  return <div class="actions">{children}</div>;
}
