/** Puts the app on the home screen, where the browser lets a page ask. */
import { type ReadonlySignal, signal } from "@preact/signals";

interface InstallPrompt extends Event {
  readonly prompt: () => Promise<unknown>;
}

export interface Install {
  readonly possible: ReadonlySignal<boolean>;
  readonly ask: () => Promise<void>;
}

export function createInstall(page: Pick<Window, "addEventListener"> | null): Install {
  const possible = signal(false);
  let prompt: InstallPrompt | null = null;
  page?.addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    prompt = event as InstallPrompt;
    possible.value = true;
  });
  page?.addEventListener("appinstalled", () => {
    possible.value = false;
  });
  return {
    possible,
    async ask() {
      const asked = prompt;
      prompt = null;
      possible.value = false;
      await asked?.prompt();
    },
  };
}
