/** Which forms of this tab hold something that was typed and not saved. */
import { computed, type ReadonlySignal, signal } from "@preact/signals";

export interface Forms {
  readonly dirty: ReadonlySignal<boolean>;
  readonly open: () => OpenForm;
}

export interface OpenForm {
  readonly setDirty: (dirty: boolean) => void;
  readonly close: () => void;
}

export function createForms(): Forms {
  const unsaved = signal<ReadonlySet<symbol>>(new Set());
  const without = (form: symbol) => new Set([...unsaved.value].filter((one) => one !== form));
  return {
    dirty: computed(() => unsaved.value.size > 0),
    open: () => {
      const form = Symbol("form");
      const setDirty = (dirty: boolean) => {
        if (unsaved.value.has(form) === dirty) return;
        unsaved.value = dirty ? new Set([...unsaved.value, form]) : without(form);
      };
      return { setDirty, close: () => setDirty(false) };
    },
  };
}
