/** The usual cautions, in the dim step, always there. */
import type { JSX } from "preact";
import { weighing } from "@/ui/text/cautions";

export function Cautions({ lines = weighing }: { readonly lines?: readonly string[] }): JSX.Element {
  return (
    <footer class="cautions">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </footer>
  );
}
