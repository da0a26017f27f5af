/** The buttons in the lower half of the phone. A second touch while the first is at work does nothing: gloves and bumps. */
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
  const button = useRef<HTMLButtonElement>(null);
  const touch = async () => {
    if (busy.current) return;
    busy.current = true;
    setTrouble(null);
    try {
      await onTouch();
      if (kind === "primary") requestAnimationFrame(() => showRefusal(button.current));
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
        ref={button}
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

const REFUSED = ":is(.field, .choice) :is(.field-error, .field-ask)";

/** What was refused or asked may stand out of sight, behind the buttons too: the first of it comes into view. */
function showRefusal(button: HTMLElement | null): void {
  const form = button?.closest(".columns > *, .screen-body");
  const refused = form?.querySelector<HTMLElement>(REFUSED);
  if (!refused) return;
  refused.scrollIntoView({ block: "center" });
  const control = refused
    .closest(".field, .choice")
    ?.querySelector<HTMLElement>("input, textarea, select, button");
  control?.focus({ preventScroll: true });
}

export function Actions({ children }: { readonly children: ComponentChildren }): JSX.Element {
  return <div class="actions">{children}</div>;
}
